using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.roof-exception-fits: foam above a roof deck without a thermal barrier below lies in a classed covering assembly, over a panel or in an assembly that was tested.</summary>
public sealed class RoofExceptionFits(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <summary>Its id.</summary>
    public const string Id = "fire.roof-exception-fits";

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.Of(bearer) switch
    {
        FoamLocation.AboveRoofDeck => BarrierNeed.WhyExceptionIsNotUsed(bearer, CodeOf(bearer)),
        null => "place-not-given",
        _ => "other-place",
    };

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code) => RoofException.Judge(bearer, code);
}
