using System.Globalization;
using FoamRules.Cli.Commands;
using FoamRules.Model;
using FoamRules.Readings;
using Spectre.Console;
using Cell = Spectre.Console.Text;

namespace FoamRules.Cli.Output;

/// <summary>What came of several plans, a line each, in their order.</summary>
internal static class BatchSummary
{
    public static void Write(IReadOnlyList<PlanChecked> plans, ReadingWords words)
    {
        var table = Tables.Of(words["batch-plan"], words["batch-outcome"], words["batch-stops"], words["batch-holds"], words["batch-unknowns"]);
        foreach (var count in table.Columns.Skip(2))
        {
            count.RightAligned().NoWrap();
        }

        foreach (var plan in plans)
        {
            table.AddRow(Row(plan, words));
        }

        Tables.Write(table, aLineEach: true);
        var byCode = plans.ToLookup(plan => plan.Code);
        Console.Out.WriteLine(words["batch-total", ("count", Number(plans.Count)), ("stop", Number(byCode[ExitCode.Stop].Count())), ("hold", Number(byCode[ExitCode.Hold].Count())),
            ("proceed", Number(byCode[ExitCode.Proceed].Count())), ("unusable", Number(byCode[ExitCode.Unusable].Count()))]);
    }

    private static Cell[] Row(PlanChecked plan, ReadingWords words)
    {
        var style = new Style(plan.Code switch { ExitCode.Proceed => Color.Green, ExitCode.Hold => Color.Yellow, _ => Color.Red });
        return plan.Report is { } report
            ? [new(plan.Name), new(ReportReading.Of(report, Reader.Anybody, words, all: false).Word, style), new(Count(report, Severity.StopWork)), new(Count(report, Severity.HoldPoint)), new(Number(report.Unknowns.Length))]
            : [new(plan.Name), new(words["batch-unusable"], style), new("-"), new("-"), new("-")];
    }

    private static string Count(Report report, Severity severity) => Number(report.Findings.Count(finding => finding.Severity == severity));

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
