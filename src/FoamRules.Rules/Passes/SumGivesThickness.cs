using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.sum-gives-thickness: the passes add up to at least the thickness that is specified, and not to far more. Whether the
/// thickness lies inside what the foam was fire-tested at is asked by fire.tested-thickness-covers.
/// </summary>
public sealed class SumGivesThickness(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _share = spec.Limits["share"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var spray = bearer.Spray;
        if (PassSum.Of(bearer) is not { } sum || spray.Thickness is not { } specified)
        {
            return Verdict.Missing([.. Unknown(bearer)]);
        }

        var enough = Hold(sum, PlanLimit.Of(spray, nameof(SprayApplication.Thickness), specified, Tighter.Higher));
        var share = new Ratio(100 * (sum / specified), RatioUnit.Percent);
        var tooMuch = Hold(share, _share).Saying("too-much").AtTier("too-much");
        var verdict = enough.Outcome == Outcome.Met && tooMuch.Outcome == Outcome.NotMet ? tooMuch : enough;
        return verdict.On(spray, nameof(SprayApplication.Passes)).On(spray, nameof(SprayApplication.Thickness), specified)
            .With("sum", sum).With("specified", specified);
    }

    private static IEnumerable<FieldRef> Unknown(SprayFacts bearer)
    {
        if (bearer.Spray.Thickness is null)
        {
            yield return new FieldRef(bearer.Spray, nameof(SprayApplication.Thickness));
        }

        if (bearer.Spray.Passes.IsEmpty)
        {
            yield return new FieldRef(bearer.Spray, nameof(SprayApplication.Passes));
        }

        foreach (var (pass, _, property) in bearer.Passes.Where(pass => pass.Thickness is null))
        {
            yield return new FieldRef(pass, property);
        }
    }
}
