using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Rules.Catalogue;

/// <summary>What of a requirement differs.</summary>
public enum DifferenceAspect
{
    /// <summary>The requirement as a whole.</summary>
    Requirement = 1,

    /// <summary>How hard a break bites at a stage.</summary>
    Severity = 2,

    /// <summary>A limit.</summary>
    Limit = 3,

    /// <summary>The sources.</summary>
    Sources = 4,

    /// <summary>Who may release a hold, or who flagged it as imminent danger.</summary>
    Release = 5,

    /// <summary>The expressions by which it is judged.</summary>
    Judging = 6,

    /// <summary>Its words.</summary>
    Words = 7,
}

/// <summary>How something differs.</summary>
public enum DifferenceKind
{
    /// <summary>It is there only after.</summary>
    Appears = 1,

    /// <summary>It is there only before.</summary>
    Vanishes = 2,

    /// <summary>It is tighter, or bites harder, after.</summary>
    Tightens = 3,

    /// <summary>It is looser, or bites less, after.</summary>
    Loosens = 4,

    /// <summary>It is another, neither tighter nor looser.</summary>
    Changes = 5,
}

/// <summary>One thing that differs between two choices of rule sets.</summary>
/// <param name="Requirement">The requirement's id; <c>parameters</c> for a value that several share.</param>
/// <param name="Aspect">What of it differs.</param>
/// <param name="Name">Which one: a limit's name, a stage, the key of a text.</param>
/// <param name="Kind">How it differs.</param>
/// <param name="Before">What was said before; empty: nothing.</param>
/// <param name="After">What is said after; empty: nothing.</param>
public sealed record Difference(string Requirement, DifferenceAspect Aspect, string Name, DifferenceKind Kind, string Before, string After);

/// <summary>What differs for one plan.</summary>
/// <param name="PlanName">The plan's name.</param>
/// <param name="Before">What stands before.</param>
/// <param name="After">What stands after.</param>
/// <param name="Changes">Findings that appear, vanish or change.</param>
public sealed record PlanComparison(string PlanName, Disposition Before, Disposition After, ImmutableArray<FindingChange> Changes);

/// <summary>A finding that differs.</summary>
/// <param name="Requirement">The requirement's id.</param>
/// <param name="Subject">What it is judged on.</param>
/// <param name="Kind">How it differs: tightens means a higher severity.</param>
/// <param name="Before">The finding before; null: none.</param>
/// <param name="After">The finding after; null: none.</param>
public sealed record FindingChange(string Requirement, Subject Subject, DifferenceKind Kind, FindingState? Before, FindingState? After);

/// <summary>A finding in a line.</summary>
/// <param name="Outcome">The outcome.</param>
/// <param name="Severity">How hard it bites.</param>
/// <param name="Found">What was found, in a sentence.</param>
/// <param name="Limit">The limit that it was held against; null: none.</param>
public sealed record FindingState(Outcome Outcome, Severity Severity, string Found, LimitUsed? Limit);
