using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>The thicknesses that a product's fire reports cover.</summary>
internal static class ReportedThickness
{
    /// <summary>The reports that count where this work is: appendix X only in attics and crawl spaces.</summary>
    public static IEnumerable<FireTest> Reports(WorkFacts work) =>
        work.Sheet.FireTests.Where(test => test.Kind != FireTestKind.Ac377AppendixX || FoamPlace.IsAtticOrCrawl(work));

    /// <summary>The greatest thickness of any report, as a limit; null where none gives one.</summary>
    public static Limit? Greatest(WorkFacts work)
    {
        var all = Reports(work).Select(test => Of(test, nameof(FireTest.MaxThickness), test.MaxThickness)).ToList();
        if (work.Sheet.SurfaceBurning is { } burning)
        {
            all.Add(Of(burning, nameof(SurfaceBurning.TestedThickness), burning.TestedThickness));
        }

        return all.OfType<Limit>().MaxBy(limit => limit.As<Length>().Meters);
    }

    private static Limit? Of(PlanNode report, string property, Length? thickness) =>
        thickness is { } known ? PlanLimit.Of(report, property, known, Tighter.Lower, SourceStatus.DataSheet) : null;
}
