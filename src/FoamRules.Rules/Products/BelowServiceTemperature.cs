using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>product.below-service-temperature: the surfaces that the foam touches stay within the product's greatest temperature in service.</summary>
public sealed class BelowServiceTemperature(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    private readonly Limit _hottest = spec.Limits["hottest"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Item.HottestSurfaceInService is not { } hottest)
        {
            return Verdict.Missing(bearer.Item, nameof(WorkItem.HottestSurfaceInService));
        }

        var sheet = bearer.Sheet;
        var limit = Governing(FromSheet(sheet, nameof(Product.MaxServiceTemperature), sheet.MaxServiceTemperature, Tighter.Lower), _hottest);
        return Hold(hottest, limit).On(bearer.Item, nameof(WorkItem.HottestSurfaceInService), hottest);
    }
}
