using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Paper;

/// <summary>
/// paper.density-and-adhesion-sampled: at close-out there are as many samples of density and tests of adhesion as the rule set asks,
/// each density lies near the data sheet's, as the specification says how near, and no test let go.
/// </summary>
public sealed class DensityAndAdhesionSampled(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _densities = spec.Limits["densities"];
    private readonly Limit _adhesionTests = spec.Limits["adhesion-tests"];
    private readonly Limit _failures = spec.Limits["adhesion-failures"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer) => bearer.Spray.Samples is { } samples
        ? Verdict.Worst([
            Densities(samples, bearer.Sheet),
            Count(samples.AdhesionTests, _adhesionTests, samples, nameof(FoamSamples.AdhesionTests), "few-adhesion-tests"),
            Count(samples.AdhesionFailures, _failures, samples, nameof(FoamSamples.AdhesionFailures), "let-go")])
        : Verdict.Missing(bearer.Spray, nameof(SprayApplication.Samples));

    private Verdict Densities(FoamSamples samples, Product sheet)
    {
        if (samples.Densities is not { Samples: var found })
        {
            return Verdict.Missing(samples, nameof(FoamSamples.Densities));
        }

        var enough = Count(found.Length, _densities, samples, nameof(FoamSamples.Densities), "few-densities");
        return found.IsEmpty ? enough : Verdict.Worst([enough, Near(samples, found, sheet)]);
    }

    private static Verdict Near(FoamSamples samples, IEnumerable<Density> found, Product sheet)
    {
        if (sheet.InPlaceDensity is not { } wanted)
        {
            return Verdict.Missing(sheet, nameof(Product.InPlaceDensity));
        }

        if (samples.DensityTolerance is not { } tolerance)
        {
            return Verdict.Missing(samples, nameof(FoamSamples.DensityTolerance));
        }

        var share = tolerance.DecimalFractions;
        var least = PlanLimit.Of(samples, nameof(FoamSamples.DensityTolerance), wanted, Tighter.Higher).Amounting(wanted * (1 - share));
        var most = PlanLimit.Of(samples, nameof(FoamSamples.DensityTolerance), wanted, Tighter.Lower).Amounting(wanted * (1 + share));
        return Verdict.Worst(found.SelectMany(density => new[] { Hold(density, least).Saying("light"), Hold(density, most).Saying("heavy") }))
            .On(samples, nameof(FoamSamples.Densities));
    }

    private static Verdict Count(int? count, Limit limit, FoamSamples samples, string property, string otherwise) => count is { } given
        ? Hold(given, limit).Saying(otherwise).On(samples, property, Measure.OfCount(given))
        : Verdict.Missing(samples, property);
}
