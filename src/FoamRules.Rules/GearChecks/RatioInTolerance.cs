using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.GearChecks;

/// <summary>
/// gear.ratio-in-tolerance: the mixing ratio is measured since this start-up and lies within the tightest tolerance of the
/// products in use; the imbalance and empty-drum shut-offs were tried and work.
/// </summary>
public sealed class RatioInTolerance(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    private readonly Limit _deviation = spec.Limits["deviation"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Gear.RatioCheck is not { } check)
        {
            return Verdict.Missing(bearer.Gear, nameof(Gear.RatioCheck));
        }

        return Verdict.Worst(
        [
            Deviation(bearer, check),
            Yes(check.SinceStartUp, check, nameof(RatioCheck.SinceStartUp), "old"),
            Yes(check.ImbalanceShutOffWorks, check, nameof(RatioCheck.ImbalanceShutOffWorks), "imbalance"),
            Yes(check.EmptyDrumShutOffWorks, check, nameof(RatioCheck.EmptyDrumShutOffWorks), "empty-drum"),
        ]);
    }

    private Verdict Deviation(JobFacts bearer, RatioCheck check)
    {
        if (check.Deviation is not { } deviation)
        {
            return Verdict.Missing(check, nameof(RatioCheck.Deviation));
        }

        // One machine serves all products: the tightest tolerance stands.
        var limits = bearer.Products.Where(product => product.Work.Count > 0).Select(product => product.Product)
            .Select(sheet => Governing(FromSheet(sheet, nameof(Product.RatioTolerance), sheet.RatioTolerance, Tighter.Lower), _deviation));
        return Verdict.Worst(limits.Select(limit => Hold(deviation, limit))).On(check, nameof(RatioCheck.Deviation), deviation);
    }

    private static Verdict Yes(bool? answer, RatioCheck check, string property, string no) =>
        answer is false ? Verdict.NotMet(no).On(check, property) : Verdict.Confirmed(answer, check, property);
}
