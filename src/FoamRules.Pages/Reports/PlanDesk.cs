using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Pages.Site;
using FoamRules.Readings;
using FoamRules.Remedies;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reports;

/// <summary>A report with its words, or what is wrong with the plan.</summary>
/// <param name="Report">The report; null where there is none.</param>
/// <param name="Plan">The plan as read; null where it could not be read.</param>
/// <param name="Texts">The texts of the rule sets that judged it, in the language of the report.</param>
/// <param name="Page">The words of the page.</param>
/// <param name="Violations">What is wrong.</param>
public sealed record PlanAnswer(Report? Report, Plan? Plan, IReadOnlyDictionary<string, string> Texts, PageWords Page, IReadOnlyList<Violation> Violations)
{
    /// <summary>The words in which readings are written. Where a reading speaks of the command line, a page says what to press instead.</summary>
    public ReadingWords Words { get; init; } = new(Texts.Concat(Page.Texts.Where(pair => pair.Key.StartsWith("reading-", StringComparison.Ordinal)))
        .GroupBy(pair => pair.Key).ToDictionary(same => same.Key, same => same.Last().Value));

    /// <summary>The time zone of the site; null: it is not known.</summary>
    public string? TimeZone { get; init; } = Plan?.TimeZone;

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

    /// <summary>All rule sets together, in the language of a page.</summary>
    /// <param name="words">The words of the page.</param>
    public RuleBook Book(PageWords words) => In(engine().Library.Everything(), words);

    /// <summary>A rule book in the language of a page; in English where nobody has translated the rule sets.</summary>
    /// <param name="book">The book.</param>
    /// <param name="words">The words of the page.</param>
    public RuleBook In(RuleBook book, PageWords words) => book.In(LanguageOf(engine(), words));

    /// <summary>Reads and checks a plan.</summary>
    /// <param name="question">What is asked.</param>
    /// <param name="words">The words of the page, in whose language the report is.</param>
    /// <param name="cancellation">Gives up where the reader does.</param>
    /// <exception cref="OperationCanceledException">The reader gave up.</exception>
    public PlanAnswer Check(ReportQuestion question, PageWords words, CancellationToken cancellation)
    {
        var read = PlanReader.ReadText(question.Plan, question.File, new ReadOptions(clock.GetUtcNow(), question.Stage));
        return Check(read, question.Units, question.Tried, words, cancellation);
    }

    /// <summary>Checks a plan that stands on record, as of now.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="stage">The stage at which it is judged; null: its own.</param>
    /// <param name="units">The units of the report.</param>
    /// <param name="words">The words of the page, in whose language the report is.</param>
    /// <param name="cancellation">Gives up where the reader does.</param>
    /// <exception cref="OperationCanceledException">The reader gave up.</exception>
    public PlanAnswer Check(Contract.Plan plan, Stage? stage, DisplayUnits units, PageWords words, CancellationToken cancellation)
    {
        var now = plan.Clone();
        now.JudgedAt = null;
        return Check(PlanReader.ReadMessage(now, new ReadOptions(clock.GetUtcNow(), stage)), units, tried: false, words, cancellation);
    }

    private PlanAnswer Check(PlanRead read, DisplayUnits? units, bool tried, PageWords words, CancellationToken cancellation)
    {
        if (read.Plan is not { } plan)
        {
            return new PlanAnswer(null, null, words.Texts, words, read.Violations);
        }

        var current = engine();
        var language = LanguageOf(current, words);
        var options = new CheckOptions(read.Digest, Units: units, Pictures: true, Language: language);
        var result = current.Check(plan, options, cancellation);
        if (result.Report is not { } report)
        {
            return new PlanAnswer(null, plan, words.Texts, words, result.Violations);
        }

        report = tried ? new RemedyFinder(current).Find(read, report, options, cancellation) : report;
        return new PlanAnswer(report, plan, current.BookFor(plan, options)!.In(language).Texts, words, []);
    }

    // A rule set folder of somebody's own may lack the language of the pages: what it says is then in English.
    private static string LanguageOf(CheckEngine current, PageWords words) => current.Library.Languages.Contains(words.Language) ? words.Language : PageWords.English;
}
