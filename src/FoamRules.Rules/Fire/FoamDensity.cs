using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>The density that fire limits and reports speak of: of the work where it is given, else the sheet's core density, else its density in place.</summary>
internal static class FoamDensity
{
    /// <summary>The density and the field that it comes from; the value is null where none is given.</summary>
    public static (Density? Value, PlanNode Node, string Property) Of(WorkFacts work)
    {
        if (work.Item.Density is { } own)
        {
            return (own, work.Item, nameof(WorkItem.Density));
        }

        return work.Sheet.CoreDensity is null && work.Sheet.InPlaceDensity is { } inPlace
            ? (inPlace, work.Sheet, nameof(Product.InPlaceDensity))
            : (work.Sheet.CoreDensity, work.Sheet, nameof(Product.CoreDensity));
    }

    /// <summary>Holds it against a limit that a layer may give.</summary>
    public static Verdict Against(WorkFacts work, RuleSets.Limit? limit, string says)
    {
        var (value, node, property) = Of(work);
        return Part.Hold(node, property, value, limit, says);
    }
}
