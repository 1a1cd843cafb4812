using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.plenum-suits: foam that faces an air-handling space keeps the plenum's indices, or has a thermal barrier before it. Where
/// a layer asks for a shield whatever the indices, they do not clear it.
/// </summary>
public sealed class PlenumSuits(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer)
    {
        if (FoamPlace.IsInSteelSection(bearer))
        {
            return "steel-section";
        }

        return bearer.Fire.Plenum is false ? "no-plenum" : null;
    }

    /// <inheritdoc/>
    private protected override Verdict? BeforeCode(WorkFacts bearer)
    {
        var fire = bearer.Fire;
        if (fire.Plenum is null)
        {
            return Verdict.Missing(fire, nameof(FireSituation.Plenum));
        }

        if (Find("shield") is not { } shield)
        {
            return null;
        }

        var isBare = fire.Covering is { Material: CoveringMaterial.None };
        return (isBare ? Verdict.NotMet("shield") : Verdict.Undetermined("shield-not-known")).On(fire, nameof(FireSituation.Plenum)).RestingOn(shield);
    }

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code)
    {
        var fire = bearer.Fire;
        var covered = ThermalBarrier.Judge(fire, code.Of(SeparatedFromInterior.Id));
        return covered.Outcome == Outcome.Met ? covered : Verdict.Worst([
            Index(fire, nameof(FireSituation.PlenumFlameSpread), fire.PlenumFlameSpread, code.Find("flame-spread"), "flame-spread"),
            Index(fire, nameof(FireSituation.PlenumSmokeDeveloped), fire.PlenumSmokeDeveloped, code.Find("smoke-developed"), "smoke-developed"),
        ]);
    }

    private static Verdict Index(FireSituation fire, string property, double? value, Limit? limit, string says) =>
        value is { } index ? Part.Hold(index, limit, says).On(fire, property, Measure.OfFactor(index)) : Verdict.Missing(fire, property);
}
