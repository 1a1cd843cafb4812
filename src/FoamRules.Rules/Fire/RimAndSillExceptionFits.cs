using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.rim-and-sill-exception-fits: foam at a rim joist, sill or header without a thermal barrier keeps every condition of the code's exception.</summary>
public sealed class RimAndSillExceptionFits(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <summary>Its id.</summary>
    public const string Id = "fire.rim-and-sill-exception-fits";

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.Of(bearer) switch
    {
        FoamLocation.RimOrSill => BarrierNeed.WhyExceptionIsNotUsed(bearer, CodeOf(bearer)),
        null => "place-not-given",
        _ => "other-place",
    };

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code) => RimOrSillException.Judge(bearer, code);
}
