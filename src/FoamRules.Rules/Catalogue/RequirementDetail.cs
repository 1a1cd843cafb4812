using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Catalogue;

/// <summary>A requirement in a line.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Topic">The part of the id before the point.</param>
/// <param name="MustHold">What must hold.</param>
/// <param name="RuleSets">The rule sets that say something of it, the lowest layer first.</param>
public sealed record RequirementSummary(string Id, string Topic, string MustHold, ImmutableArray<string> RuleSets);

/// <summary>All that is said of a requirement. The properties bear the contract's names.</summary>
public sealed record RequirementDetail
{
    /// <summary>Its id.</summary>
    public required string Id { get; init; }

    /// <summary>The part of the id before the point.</summary>
    public required string Topic { get; init; }

    /// <summary>What must hold.</summary>
    public required string MustHold { get; init; }

    /// <summary>The hazard because of which it is asked.</summary>
    public required string Hazard { get; init; }

    /// <summary>The rule sets that say something of it, the lowest layer first.</summary>
    public required ImmutableArray<string> RuleSets { get; init; }

    /// <summary>How hard a break bites, stage by stage.</summary>
    public required ImmutableArray<StageSeverities> Severities { get; init; }

    /// <summary>Other severities for a worse or lighter break.</summary>
    public required ImmutableArray<SeverityTier> Tiers { get; init; }

    /// <summary>Its limits, with the layer that decided and what the layers below say.</summary>
    public required ImmutableArray<LimitStated> Limits { get; init; }

    /// <summary>The sources of the requirement as a whole, those of the upper layers first.</summary>
    public required ImmutableArray<SourceUsed> Sources { get; init; }

    /// <summary>What is said of the outcome, by key.</summary>
    public required ImmutableArray<KeyedText> Says { get; init; }

    /// <summary>Why it does not apply, by key.</summary>
    public required ImmutableArray<KeyedText> NotApplicable { get; init; }

    /// <summary>What would put it right, by the key of what is said; the empty key for all.</summary>
    public required ImmutableArray<KeyedText> Remedies { get; init; }

    /// <summary>The caution that stands on it.</summary>
    public required string Caution { get; init; }

    /// <summary>An example; empty where there is none.</summary>
    public required string Example { get; init; }

    /// <summary>Who may release a hold.</summary>
    public required ImmutableArray<string> ReleaseRoles { get; init; }

    /// <summary>The role that flagged it as imminent danger; null: nobody.</summary>
    public required string? ImminentSetBy { get; init; }

    /// <summary>How it is judged, where a rule set says so; null where a class judges it.</summary>
    public required Declaration? Declared { get; init; }
}

/// <summary>How hard a break bites at one stage; nulls: not judged at that stage.</summary>
/// <param name="Stage">The stage.</param>
/// <param name="NotMet">Where it is not met.</param>
/// <param name="Missing">Where an input is missing.</param>
public sealed record StageSeverities(Stage Stage, Severity? NotMet, Severity? Missing);

/// <summary>Other severities for a worse or lighter break of the same requirement.</summary>
/// <param name="Name">Its name in the rule set.</param>
/// <param name="Severities">How hard it bites, stage by stage.</param>
/// <param name="Sources">Its sources; empty: those of the requirement.</param>
public sealed record SeverityTier(string Name, ImmutableArray<StageSeverities> Severities, ImmutableArray<SourceUsed> Sources);

/// <summary>A limit as a layer states it.</summary>
/// <param name="Name">Its name in the rule set.</param>
/// <param name="Says">The limit in words.</param>
/// <param name="Value">Its value.</param>
/// <param name="Or">The value that the source prints as an alternative; null where it prints one.</param>
/// <param name="Words">The words that are allowed, for a list.</param>
/// <param name="Tighter">Which change of it is tighter.</param>
/// <param name="Layer">The rule set that states it.</param>
/// <param name="Source">Its source.</param>
/// <param name="RelaxedBy">The authority by which it relaxes the layer below; null where it does not.</param>
/// <param name="Overruled">True for one in whose place a relaxation stands.</param>
/// <param name="Below">What the other layers say, the lowest first.</param>
public sealed record LimitStated(
    string Name, string Says, Measure Value, Measure? Or, ImmutableArray<string> Words, Tighter Tighter, string Layer, SourceUsed Source, string? RelaxedBy, bool Overruled, ImmutableArray<LimitStated> Below);

/// <summary>A text under a key.</summary>
/// <param name="Key">The key; empty where one text stands for all.</param>
/// <param name="Text">The text, with placeholders in braces.</param>
public sealed record KeyedText(string Key, string Text);

/// <summary>How a declared requirement is judged.</summary>
/// <param name="JudgedOn">What it is judged on.</param>
/// <param name="Applies">When it applies; null: always.</param>
/// <param name="Met">When it is met.</param>
/// <param name="Needs">Fields without which it cannot be judged.</param>
public sealed record Declaration(string JudgedOn, string? Applies, string Met, ImmutableArray<string> Needs);
