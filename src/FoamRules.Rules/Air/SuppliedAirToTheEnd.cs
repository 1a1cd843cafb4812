using FoamRules.Model;
using FoamRules.Rules.Body;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.supplied-air-to-the-end: a supplied-air set stays on until its wearer is outside the zone, and losing the air does not
/// leave them without a way out. Asked only where such a set is worn.
/// </summary>
public sealed class SuppliedAirToTheEnd(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => Worn.IsSuppliedAir(bearer) ? null : "no-supplied-air";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var respirator = bearer.Person.Respirator!;
        return Verdict.Confirmed(respirator.AirToTheEnd, respirator, nameof(Respirator.AirToTheEnd));
    }
}
