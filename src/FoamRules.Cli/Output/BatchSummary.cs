using System.Globalization;
using System.Text;
using FoamRules.Cli.Commands;
using FoamRules.Model;
using FoamRules.Readings;

namespace FoamRules.Cli.Output;

/// <summary>What came of several plans, a line each, in their order.</summary>
internal static class BatchSummary
{
    public static string Write(IReadOnlyList<PlanChecked> plans, ReadingWords words)
    {
        string[] titles = [words["batch-plan"], words["batch-outcome"], words["batch-stops"], words["batch-holds"], words["batch-unknowns"]];
        string[][] rows = [titles, .. plans.Select(plan => Row(plan, words))];
        var widths = titles.Select((_, column) => rows.Max(row => row[column].Length)).ToArray();
        var output = new StringBuilder();
        foreach (var row in rows)
        {
            // Words to the left, numbers to the right.
            output.AppendLine(string.Join("  ", row.Select((cell, column) => column < 2 ? cell.PadRight(widths[column]) : cell.PadLeft(widths[column]))).TrimEnd());
        }

        var byCode = plans.ToLookup(plan => plan.Code);
        output.AppendLine(words["batch-total", ("count", Number(plans.Count)), ("stop", Number(byCode[ExitCode.Stop].Count())), ("hold", Number(byCode[ExitCode.Hold].Count())),
            ("proceed", Number(byCode[ExitCode.Proceed].Count())), ("unusable", Number(byCode[ExitCode.Unusable].Count()))]);
        return output.ToString();
    }

    private static string[] Row(PlanChecked plan, ReadingWords words) => plan.Report is { } report
        ? [plan.Name, ReportReading.Of(report, Reader.Anybody, words, all: false).Word, Count(report, Severity.StopWork), Count(report, Severity.HoldPoint), Number(report.Unknowns.Length)]
        : [plan.Name, words["batch-unusable"], "-", "-", "-"];

    private static string Count(Report report, Severity severity) => Number(report.Findings.Count(finding => finding.Severity == severity));

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);
}
