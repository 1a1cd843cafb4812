using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Catalogue;

/// <summary>A rule set in a few lines. The properties bear the contract's names.</summary>
public sealed record RuleSetSummary
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>What people call it.</summary>
    public required string Title { get; init; }

    /// <summary>Its version.</summary>
    public required string Version { get; init; }

    /// <summary>Where it stands among the layers.</summary>
    public required Level Level { get; init; }

    /// <summary>The rule set that it stands above; null: none.</summary>
    public required string? Above { get; init; }

    /// <summary>Whether it is a draft, in force or withdrawn.</summary>
    public required RuleSetStatus Status { get; init; }

    /// <summary>The first day on which it holds, ISO 8601; empty: it names none.</summary>
    public required string EffectiveFrom { get; init; }

    /// <summary>The last day on which it holds, ISO 8601; empty: it names none.</summary>
    public required string EffectiveUntil { get; init; }

    /// <summary>The countries whose plans get it without asking; empty: none.</summary>
    public required ImmutableArray<string> Countries { get; init; }

    /// <summary>The region in which alone it holds; null: all of the country.</summary>
    public required string? Region { get; init; }

    /// <summary>Rule sets that it takes over as they are.</summary>
    public required ImmutableArray<string> Adopts { get; init; }

    /// <summary>The document of which it is an edition; null: none.</summary>
    public required string? EditionOf { get; init; }

    /// <summary>SHA-256 of its files, in hexadecimal.</summary>
    public required string Digest { get; init; }

    /// <summary>How many requirements it says something of.</summary>
    public required int Requirements { get; init; }

    /// <summary>How many limits and parameters it states.</summary>
    public required int Limits { get; init; }

    /// <summary>Topics that no requirement of it judges yet.</summary>
    public required ImmutableArray<string> TopicsNotJudged { get; init; }
}

/// <summary>What one rule set itself says.</summary>
/// <param name="Summary">The rule set in a few lines.</param>
/// <param name="Requirements">What it says of requirements, by id.</param>
/// <param name="Parameters">Values that several requirements share.</param>
/// <param name="Sources">Its sources.</param>
public sealed record RuleSetDetail(RuleSetSummary Summary, ImmutableArray<RequirementStated> Requirements, ImmutableArray<LimitStated> Parameters, ImmutableArray<SourceUsed> Sources);

/// <summary>What one rule set says of one requirement.</summary>
/// <param name="Id">The requirement's id.</param>
/// <param name="MustHold">What must hold; null: as below.</param>
/// <param name="Severities">Severities that it states, stage by stage; empty: as below.</param>
/// <param name="Limits">Its limits.</param>
/// <param name="Sources">Its sources.</param>
public sealed record RequirementStated(string Id, string? MustHold, ImmutableArray<StageSeverities> Severities, ImmutableArray<LimitStated> Limits, ImmutableArray<SourceUsed> Sources);
