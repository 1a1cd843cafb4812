using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>
/// product.within-shelf-life: every lot expires after the work date. At pre-start the day on which the plan is judged counts
/// where it is later than the work date: the work may have slipped.
/// </summary>
public sealed class WithinShelfLife(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var plan = bearer.Job.Plan;
        if (bearer.Product.Lots.IsEmpty)
        {
            return Verdict.Missing(bearer.Product, nameof(Product.Lots));
        }

        if (DayOfUse(bearer) is not { } day)
        {
            return Verdict.Missing(plan, nameof(Plan.WorkDate));
        }

        return Verdict.Worst(bearer.Product.Lots.Select(lot => Expires(lot, day)));
    }

    private static Verdict Expires(Lot lot, DateOnly day)
    {
        if (lot.Expires is not { } expires)
        {
            return Verdict.Missing(lot, nameof(Lot.Expires));
        }

        return ((expires > day ? Verdict.Met() : Verdict.NotMet()) with { Value = Measure.OfDate(expires) })
            .On(lot, nameof(Lot.Expires), Measure.OfDate(expires)).With("lot", LotName.Of(lot)).With("day", Measure.OfDate(day));
    }

    private static DateOnly? DayOfUse(ProductFacts bearer)
    {
        var planned = bearer.Job.Plan.WorkDate;
        var today = bearer.Stage == Stage.PreStart ? SiteClock.DayOf(bearer.Job.Plan) : null;
        return today is null || planned > today ? planned : today;
    }
}
