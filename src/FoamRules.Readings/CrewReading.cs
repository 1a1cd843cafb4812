using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>
/// For the crew: go, hold or stop in the first line, then what to put right, today's numbers and the clock, in short words and on one
/// screen. Only the check on site says go; a stopped plan shows no numbers.
/// </summary>
internal static class CrewReading
{
    private const int MostFindings = 3;
    private const int MostNumbers = 8;
    private const int MostTimes = 6;

    public static ReportView Of(Arrangement at)
    {
        var report = at.Report;
        var isStopped = report.Disposition == Disposition.Stop;
        var words = at.Words;
        return Arrangement.View(
            Word(at), report.PlanName, [words[Line(report)], at.Responsible, .. report.LanguageNotes],
            [
                Findings(at, Severity.StopWork, "crew-stops"),
                Findings(at, Severity.HoldPoint, "crew-holds"),
                at.Lines("crew-not-known", NotKnown(at)),
                Findings(at, Severity.Caution, "crew-cautions"),
                .. isStopped ? [] : new[] { Numbers(at), Clock(at) },
                at.Lines("ask-again", report.AskAgainWhen.IsEmpty ? [] : [string.Join(words.Semicolon, report.AskAgainWhen)]),
                at.Lines("caution", [words["crew-caution"]]),
            ]);
    }

    private static ReportSection Numbers(Arrangement at) => new(
        at.Words[at.Report.Disposition == Disposition.Hold ? "crew-numbers-held" : "numbers"],
        Shown(at, [.. at.Report.Numbers.Select(number => NumberEntries.Of(at, number, note: false))], MostNumbers))
    { Name = "numbers" };

    private static ReportSection Clock(Arrangement at)
    {
        var clock = at.Clock();
        return clock with { Entries = Shown(at, clock.Entries, MostTimes) };
    }

    private static string Word(Arrangement at) => at.Words[at.Report switch
    {
        { Disposition: Disposition.Stop } => "stop",
        { Disposition: Disposition.Hold } or { Complete: false } => "hold",
        { Stage: not Stage.PreStart } => "crew-not-yet",
        { Disposition: Disposition.ProceedWithCautions } => "crew-go-with-care",
        _ => "crew-go",
    }];

    private static string Line(Report report) => report switch
    {
        { Disposition: Disposition.Stop } => "crew-line-stop",
        { Disposition: Disposition.Hold } or { Complete: false } => "crew-line-hold",
        { Stage: not Stage.PreStart } => "crew-line-not-yet",
        _ => "crew-line-go",
    };

    // What is broken stands by itself; what nobody knows is one line, however much it is.
    private static ReportSection Findings(Arrangement at, Severity severity, string key)
    {
        var broken = at.Report.Findings.Where(finding => finding.Severity == severity && finding.Outcome != Outcome.Undetermined).ToList();
        ImmutableArray<ReportEntry> entries = [.. broken.Select(finding => FindingEntries.Marked(
            finding, new ReportEntry($"{at.Words.Of(finding.Subject)}{at.Words.Colon}{finding.Found}", [.. Doing(at, finding).Where(detail => detail.Text.Length > 0)])))];
        return new ReportSection(at.Words[key], Shown(at, entries, MostFindings)) { Name = key };
    }

    // What cures it comes before whom to ask: nobody should let a thing go that a hand could have put right.
    private static IEnumerable<ReportDetail> Doing(Arrangement at, Finding finding) => finding.Severity < Severity.HoldPoint ? [] :
    [
        new ReportDetail(at.Words["crew-do"], finding.Remedy),
        new ReportDetail(at.Words["label-release"], finding.Severity == Severity.HoldPoint ? at.AnyOf(finding.ReleaseRoles) : ""),
    ];

    private static IEnumerable<string> NotKnown(Arrangement at)
    {
        var open = at.Report.Findings.Count(finding => finding is { Outcome: Outcome.Undetermined, Severity: >= Severity.HoldPoint });
        if (open == 0)
        {
            yield break;
        }

        yield return at.Words.Counted("crew-open", open);
        foreach (var unknown in at.Report.Unknowns.Where(unknown => unknown.Worst >= Severity.HoldPoint).Take(3))
        {
            yield return unknown.Question;
        }
    }

    private static ImmutableArray<ReportEntry> Shown(Arrangement at, ImmutableArray<ReportEntry> entries, int most) => at.All || entries.Length <= most ? entries
        : [.. entries.Take(most), new ReportEntry(at.Words["crew-more", ("count", ReadingWords.Number(entries.Length - most))])];
}
