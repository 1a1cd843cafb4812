using System.Collections.Immutable;

namespace FoamRules.Model;

/// <summary>
/// Changes of the plan that were tried on a copy and checked again. They change only what whoever plans may choose, never a fact
/// and never an answer that a person must give.
/// </summary>
/// <param name="Tried">For single findings: the smallest change found that clears the finding and brings nothing as bad.</param>
/// <param name="WholePlan">For the plan as a whole: the changes together, and what is left to people.</param>
public sealed record RemedyReport(ImmutableArray<TriedRemedy> Tried, WholePlanRemedy WholePlan);

/// <summary>A change that clears one finding.</summary>
/// <param name="Requirement">The requirement that it clears.</param>
/// <param name="Subject">On what.</param>
/// <param name="Changes">What is changed.</param>
/// <param name="Cleared">The findings that were not met and are met after it, the one that it was tried for among them.</param>
/// <param name="Brought">The findings that are new or worse after it; none is as severe as the one that it was tried for.</param>
/// <param name="Effects">What it does to days, numbers and material.</param>
public sealed record TriedRemedy(
    string Requirement, Subject Subject, ImmutableArray<FieldChange> Changes, ImmutableArray<FindingNamed> Cleared, ImmutableArray<FindingNamed> Brought,
    ImmutableArray<RemedyEffect> Effects);

/// <summary>The changes that take the plan as far as changes can.</summary>
/// <param name="Disposition">The worst that stands after them.</param>
/// <param name="Changes">What is changed.</param>
/// <param name="Cleared">The findings that were not met and are met after them.</param>
/// <param name="Brought">The findings that are new or worse after them.</param>
/// <param name="Effects">What they do to days, numbers and material.</param>
/// <param name="Decisions">What then keeps the plan from proceeding and only people can decide, find out or put right.</param>
public sealed record WholePlanRemedy(
    Disposition Disposition, ImmutableArray<FieldChange> Changes, ImmutableArray<FindingNamed> Cleared, ImmutableArray<FindingNamed> Brought,
    ImmutableArray<RemedyEffect> Effects, ImmutableArray<PersonDecision> Decisions);

/// <summary>One field that is changed.</summary>
/// <param name="Path">Its path in the plan.</param>
/// <param name="Before">What it said, as people read it; empty: nothing.</param>
/// <param name="After">What it says, as people read it; empty: nothing, so that it is asked for again.</param>
/// <param name="BeforeValue">The value before; null where it is not a single one.</param>
/// <param name="AfterValue">The value after; null where it is not a single one.</param>
/// <param name="Write">What to write into the plan at that path, in YAML on one line; <c>null</c> takes the field out.</param>
public sealed record FieldChange(string Path, string Before, string After, Measure? BeforeValue, Measure? AfterValue, string Write);

/// <summary>A finding, named.</summary>
/// <param name="Requirement">The requirement.</param>
/// <param name="Subject">On what.</param>
/// <param name="Severity">How hard it bites.</param>
/// <param name="Found">What was found, in a sentence.</param>
public sealed record FindingNamed(string Requirement, Subject Subject, Severity Severity, string Found);

/// <summary>What a change does to a number or a time of the report.</summary>
/// <param name="Subject">What it belongs to.</param>
/// <param name="What">The number's name, or what happens at the time.</param>
/// <param name="Before">As it was; empty: there was none.</param>
/// <param name="After">As it is after the change; empty: there is none.</param>
public sealed record RemedyEffect(Subject Subject, string What, string Before, string After);

/// <summary>What only a person can decide, find out or put right.</summary>
/// <param name="Requirement">The requirement.</param>
/// <param name="Subject">On what.</param>
/// <param name="Severity">How hard it bites.</param>
/// <param name="Found">What was found, in a sentence.</param>
/// <param name="Remedy">What would put it right.</param>
/// <param name="ReleaseRoles">Who may release it, where it is a hold.</param>
/// <param name="NotMade">A change that would clear it and is not made, because what it brings is as bad; empty where none was found.</param>
/// <param name="NotMadeBrings">What that change brings.</param>
public sealed record PersonDecision(
    string Requirement, Subject Subject, Severity Severity, string Found, string Remedy, ImmutableArray<string> ReleaseRoles,
    ImmutableArray<FieldChange> NotMade, ImmutableArray<FindingNamed> NotMadeBrings);
