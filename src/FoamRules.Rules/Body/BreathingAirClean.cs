using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>body.breathing-air-clean: the air that a supplied-air set brings is Grade D, drawn away from exhaust, with a carbon monoxide alarm.</summary>
public sealed class BreathingAirClean(RequirementSpec spec) : Requirement<PersonFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) => Worn.IsSuppliedAir(bearer) ? null : "no-supplied-air";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var respirator = bearer.Person.Respirator!;
        return Verdict.Confirmed(respirator.BreathingAirClean, respirator, nameof(Respirator.BreathingAirClean));
    }
}
