using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Pages.Site;
using FoamRules.Readings;
using FoamRules.Remedies;
using FoamRules.Rules.Engine;

namespace FoamRules.Pages.Reports;

/// <summary>A report with its words, or what is wrong with the plan.</summary>
/// <param name="Report">The report; null where there is none.</param>
/// <param name="Plan">The plan as read; null where it could not be read.</param>
/// <param name="Words">The words in which readings are written.</param>
/// <param name="Violations">What is wrong.</param>
public sealed record PlanAnswer(Report? Report, Plan? Plan, ReadingWords Words, IReadOnlyList<Violation> Violations)
{
    /// <summary>The report as somebody reads it.</summary>
    /// <param name="reader">Who.</param>
    /// <param name="all">Everything in full.</param>
    public ReportView For(Reader reader, bool all) => ReportReading.Of(Report!, reader, Words, all);

    /// <summary>Who reads a report of this stage, where nobody says.</summary>
    public Reader UsualReader => Report?.Stage switch
    {
        Stage.Quote => Reader.Office,
        Stage.PreStart => Reader.Crew,
        _ => Reader.Safety,
    };
}

/// <summary>Takes plans and answers with reports. It keeps nothing.</summary>
/// <param name="engine">The engine in use.</param>
/// <param name="clock">Written into plans that do not say when they are judged.</param>
public sealed class PlanDesk(Func<CheckEngine> engine, TimeProvider clock)
{
    /// <summary>The engine in use.</summary>
    public CheckEngine Engine => engine();

    /// <summary>Reads and checks a plan.</summary>
    /// <param name="question">What is asked.</param>
    /// <param name="words">The words of the page, in whose language the report is.</param>
    /// <param name="cancellation">Gives up where the reader does.</param>
    /// <exception cref="OperationCanceledException">The reader gave up.</exception>
    public PlanAnswer Check(ReportQuestion question, PageWords words, CancellationToken cancellation)
    {
        var read = PlanReader.ReadText(question.Plan, question.File, new ReadOptions(clock.GetUtcNow(), question.Stage));
        if (read.Plan is not { } plan)
        {
            return new PlanAnswer(null, null, new ReadingWords(words.Texts), read.Violations);
        }

        var current = engine();
        // A rule set folder of somebody's own may lack the language of the pages: the report is then in English, and says so in its notes.
        var language = current.Library.Languages.Contains(words.Language) ? words.Language : PageWords.English;
        var options = new CheckOptions(read.Digest, Units: question.Units, Pictures: true, Language: language);
        var result = current.Check(plan, options, cancellation);
        if (result.Report is not { } report)
        {
            return new PlanAnswer(null, plan, new ReadingWords(words.Texts), result.Violations);
        }

        report = question.Tried ? new RemedyFinder(current).Find(read, report, options, cancellation) : report;
        return new PlanAnswer(report, plan, Readings(current.BookFor(plan, options)!.In(language).Texts, words), []);
    }

    // Where a reading speaks of the command line, a page says what to press instead.
    private static ReadingWords Readings(IReadOnlyDictionary<string, string> texts, PageWords words) =>
        new(texts.Concat(words.Texts.Where(pair => pair.Key.StartsWith("reading-", StringComparison.Ordinal)))
            .GroupBy(pair => pair.Key).ToDictionary(same => same.Key, same => same.Last().Value));
}
