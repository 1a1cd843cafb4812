using FoamRules.Model;
using FoamRules.Rules.Facts;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>The thicknesses that a product's fire reports cover.</summary>
internal static class ReportedThickness
{
    /// <summary>The reports that count where this work is: appendix X only in attics and crawl spaces.</summary>
    public static IEnumerable<FireTest> Reports(WorkFacts work) =>
        work.Sheet.FireTests.Where(test => test.Kind != FireTestKind.Ac377AppendixX || FoamPlace.IsAtticOrCrawl(work));

    /// <summary>The greatest thickness of any report; null where none gives one.</summary>
    public static Length? Greatest(WorkFacts work)
    {
        var all = Reports(work).Select(test => test.MaxThickness).Append(work.Sheet.SurfaceBurning?.TestedThickness).OfType<Length>().ToList();
        return all.Count == 0 ? null : all.MaxBy(thickness => thickness.Meters);
    }
}
