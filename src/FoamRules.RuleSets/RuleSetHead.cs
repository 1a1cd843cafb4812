using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>What a rule set says of itself in <c>rule-set.yaml</c>: what it is, where and when it holds, and on what it stands.</summary>
public sealed record RuleSetHead
{
    /// <summary>What people call it.</summary>
    public required string Title { get; init; }

    /// <summary>Its version.</summary>
    public required string Version { get; init; }

    /// <summary>Whether it counts: in force where nothing is said.</summary>
    public RuleSetStatus Status { get; init; } = RuleSetStatus.InForce;

    /// <summary>The first day on which it holds; null: it has no first day.</summary>
    public DateOnly? From { get; init; }

    /// <summary>The last day on which it holds; null: it has no last day.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>The countries whose plans get it without asking, by ISO 3166-1; empty: only who names it gets it.</summary>
    public ImmutableArray<string> Countries { get; init; } = [];

    /// <summary>The region of the country in which alone it holds, by ISO 3166-2; null: all of the country.</summary>
    public string? Region { get; init; }

    /// <summary>Where it stands among the layers.</summary>
    public required Level Level { get; init; }

    /// <summary>The rule set whose limits it may only tighten; null for general practice.</summary>
    public string? Above { get; init; }

    /// <summary>Rule sets that it takes over as they are, such as an edition of a building code; it stands above them too.</summary>
    public ImmutableArray<string> Adopts { get; init; } = [];

    /// <summary>The document of which it is an edition, such as us-ibc; null where it is none.</summary>
    public string? EditionOf { get; init; }

    /// <summary>Topics that no requirement of this set judges yet.</summary>
    public ImmutableArray<string> TopicsNotJudged { get; init; } = [];

    /// <summary>Where a field stands, by its name, for messages; the head itself under the empty name.</summary>
    public required ImmutableDictionary<string, Violation> Places { get; init; }

    /// <summary>The rule sets on which it stands itself: the one it is above, and those it adopts.</summary>
    public IEnumerable<string> StandsOn => Above is { } below ? Adopts.Prepend(below) : Adopts;

    /// <summary>Where a field stands; the head where it is left out.</summary>
    public Violation PlaceOf(string field) => Places.GetValueOrDefault(field) ?? Places[""] with { Path = field };

    /// <summary>True where it holds on a day; a day that is not known lies inside every window.</summary>
    public bool IsEffectiveOn(DateOnly? day) => day is not { } date || ((From is not { } from || from <= date) && (Until is not { } until || date <= until));
}
