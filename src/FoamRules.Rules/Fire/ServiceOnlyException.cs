using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>The codes' exception for attics and crawl spaces that people enter only for service: an ignition barrier is enough there.</summary>
internal static class ServiceOnlyException
{
    /// <summary>Met where the code's own words hold, storage and air handling do not bar it, and the conditions of a report that is used are kept.</summary>
    public static Verdict Judge(WorkFacts work, CodeLimits code)
    {
        var fire = work.Fire;
        if (code.Find("spaces") is not { } spaces)
        {
            return Part.NoTable();
        }

        var parts = new List<Verdict>
        {
            Answer.Yes(fire.EnteredOnlyForService, fire, nameof(FireSituation.EnteredOnlyForService), "entered"),
            Part.No(fire, nameof(FireSituation.UsedForStorage), fire.UsedForStorage, "storage"),
            Part.No(fire, nameof(FireSituation.Plenum), fire.Plenum, "plenum"),
        };
        if (!spaces.Words.Contains(fire.Location is FoamLocation.Attic ? "attic" : "crawl space"))
        {
            parts.Add(Verdict.NotMet("space-not-listed").On(fire, nameof(FireSituation.Location)));
        }

        if (code.Find("access-openings") is not null)
        {
            parts.Add(Answer.Yes(fire.AccessProvided, fire, nameof(FireSituation.AccessProvided), "access"));
        }

        if (SpecialApproval.ReportUsed(work) is { Kind: FireTestKind.Ac377AppendixX } report)
        {
            parts.Add(Answer.Yes(report.ConditionsMet, report, nameof(FireTest.ConditionsMet), "report-conditions"));
        }

        return Verdict.Worst(parts).RestingOn(spaces);
    }
}
