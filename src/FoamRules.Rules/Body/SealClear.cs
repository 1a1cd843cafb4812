using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>body.seal-clear: nothing lies under a tight seal, and the seal is checked at each donning.</summary>
public sealed class SealClear(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => Worn.SealsNowhere(bearer) ? "no-seal" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer) => Verdict.Confirmed(bearer.Person.SealClear, bearer.Person, nameof(Person.SealClear));
}
