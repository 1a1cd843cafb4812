using FoamRules.Model;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.OnSite;

/// <summary>The data sheets that apply to the air of an area.</summary>
internal static class AreaSheets
{
    /// <summary>The products of some work, each once, by their ids: the order of the plan changes nothing in a report.</summary>
    public static IEnumerable<Product> Of(IEnumerable<WorkFacts> work) =>
        work.Select(item => item.Sheet).DistinctBy(sheet => sheet.Id).OrderBy(sheet => sheet.Id, StringComparer.Ordinal);
}
