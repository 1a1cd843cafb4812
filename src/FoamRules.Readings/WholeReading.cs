using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>The whole report: what stops, holds and needs care, with what would put it right; numbers, clock, questions, price, cautions.</summary>
internal static class WholeReading
{
    private const int MostQuestions = 5;

    public static ReportView Of(Arrangement at)
    {
        var report = at.Report;
        return Arrangement.View(
            at.Disposition, at.Title, at.Head(),
            [
                Findings(at, Severity.StopWork, "stops", full: true),
                Findings(at, Severity.HoldPoint, "holds", full: true),
                Findings(at, Severity.Caution, "cautions", full: at.All),
                Findings(at, Severity.Reminder, "reminders", full: at.All),
                RemedyEntries.Together(at),
                new ReportSection(at.Words[report.Disposition == Disposition.Stop ? "numbers-stopped" : "numbers"], [.. report.Numbers.Select(number => NumberEntries.Of(at, number, note: true))]) { Name = "numbers" },
                at.Clock(),
                .. UnknownEntries.Of(at, at.All ? int.MaxValue : MostQuestions),
                at.All ? PriceEntries.Of(at) : at.Lines("price", report.PriceLines.IsEmpty ? [] : [Price(at)]),
                TopicsNotJudged(at),
                at.Lines("ask-again", report.AskAgainWhen),
                at.Lines("relaxations", report.Relaxations),
                at.Cautions(),
            ]);
    }

    private static ReportSection Findings(Arrangement at, Severity severity, string key, bool full)
    {
        var findings = at.Report.Findings.Where(finding => finding.Severity == severity).ToList();
        // What is not known and would only be a reminder stands among the questions as well.
        var shown = full || severity != Severity.Reminder ? findings : findings.Where(finding => finding.Outcome == Outcome.NotMet).ToList();
        ImmutableArray<ReportEntry> left = shown.Count < findings.Count ? [new ReportEntry(at.Words["reminders-left", ("count", ReadingWords.Number(findings.Count - shown.Count))])] : [];
        return new ReportSection(
            at.Words[key, ("count", ReadingWords.Number(findings.Count))],
            [.. left, .. shown.Select(finding => full ? FindingEntries.Full(at, finding, at.All) : FindingEntries.Short(at, finding))])
        { Name = key };
    }

    private static string Price(Arrangement at)
    {
        var open = at.Report.PriceLines.Count(line => line.Quantity is null);
        return at.Words["price-short", ("count", ReadingWords.Number(at.Report.PriceLines.Length)), ("open", ReadingWords.Number(open))];
    }

    private static ReportSection TopicsNotJudged(Arrangement at) => at.All
        ? at.Lines("topics-all", at.Report.TopicsNotJudged)
        : at.Lines("topics", at.Report.TopicsNotJudged.IsEmpty ? [] : [at.Words["topics-short", ("topics", string.Join(", ", at.Report.TopicsNotJudged.Select(topic => topic.Split(':')[0])))]]);
}
