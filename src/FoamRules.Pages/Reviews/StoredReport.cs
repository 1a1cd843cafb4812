using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Site;
using FoamRules.Rules.Engine;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews;

/// <summary>A report from the record, arranged for a page.</summary>
/// <param name="Answer">The report with its plan and words.</param>
/// <param name="Words">How its words stand to those on record.</param>
public sealed record StoredReport(PlanAnswer Answer, StoredWords Words)
{
    /// <summary>
    /// The report of a plan on record. The record is kept in English and without pictures. Where today's rule sets still say the very
    /// same, the pictures are drawn again and the words may be those of another language; else the report is shown as it is kept.
    /// </summary>
    /// <param name="desk">The engine in use.</param>
    /// <param name="plan">The plan on record.</param>
    /// <param name="report">The report on record.</param>
    /// <param name="words">The words of the page.</param>
    /// <param name="cancellation">Gives up where the reader does.</param>
    public static StoredReport Of(PlanDesk desk, Contract.Plan plan, Contract.Report report, PageWords words, CancellationToken cancellation)
    {
        var stored = ReportMapper.ToReport(report);
        var read = PlanReader.ReadMessage(plan, new ReadOptions(stored.JudgedAt ?? default));
        var engine = desk.Engine;
        var language = engine.Library.Languages.Contains(words.Language) ? words.Language : PageWords.English;
        var options = new CheckOptions(read.Digest, Units: stored.Units, Pictures: true, Language: language);
        var again = read.Plan is null ? null : engine.Check(read.Plan, options, cancellation).Report;
        var same = again is not null && Core(again) == Core(stored);
        var book = read.Plan is null ? null : engine.BookFor(read.Plan, options);
        var texts = book?.In(same ? language : PageWords.English).Texts ?? words.Texts;
        var shown = !same ? stored : language == PageWords.English ? stored with { Pictures = again!.Pictures } : again!;
        return new StoredReport(
            new PlanAnswer(shown, read.Plan, texts, words, []),
            !same ? StoredWords.NoLongerSaid : language == PageWords.English ? StoredWords.AsKept : StoredWords.Translated);
    }

    // What a report comes to, whatever its words.
    private static string Core(Report report) =>
        $"{report.Disposition} {report.Complete} {string.Join('\n', report.Findings.Select(finding => $"{finding.Requirement} {finding.Subject.Kind} {finding.Subject.Id} {finding.Severity}"))}";
}

/// <summary>How the words of a shown report stand to those on record.</summary>
public enum StoredWords
{
    /// <summary>They are the same.</summary>
    AsKept = 1,

    /// <summary>They say the same in another language.</summary>
    Translated = 2,

    /// <summary>They are those on record; today's rule sets say something else.</summary>
    NoLongerSaid = 3,
}
