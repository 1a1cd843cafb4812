using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>A report that is being arranged: the parts that several readings share.</summary>
/// <param name="Report">The report.</param>
/// <param name="Words">The words.</param>
/// <param name="All">Everything in full.</param>
internal sealed record Arrangement(Report Report, ReadingWords Words, bool All)
{
    /// <summary>A value in the report's units.</summary>
    public string Show(Measure measure) => MeasureText.Show(measure, Report.Units, Words.Style(Report));

    /// <summary>A value that may be words of the contract or of a calculation, such as <c>half-mask</c> or <c>never</c>.</summary>
    public string ShowWords(Measure measure) => measure is { Text: { } text, Phrase: null } ? Words.Words(text) : Show(measure);

    /// <summary>The name and stage.</summary>
    public string Title => $"{Report.PlanName} · {Words.Of(Report.Stage)}";

    /// <summary>Who answers for the job on site.</summary>
    public string Responsible => Report.ResponsiblePerson is { Length: > 0 } person ? Words["responsible", ("person", person)] : Words["responsible-nobody"];

    /// <summary>Roles of which any will do.</summary>
    public string AnyOf(IEnumerable<string> roles) => string.Join($", {Words["or"]} ", roles.Select(role => Words.Named("role", role)));

    /// <summary>The disposition.</summary>
    public string Disposition => Words[Report.Disposition switch
    {
        Model.Disposition.Stop => "stop",
        Model.Disposition.Hold => "hold",
        Model.Disposition.ProceedWithCautions => "proceed-with-cautions",
        _ => "proceed",
    }];

    /// <summary>Summary, counts, rule sets and how they were chosen.</summary>
    public ImmutableArray<string> Head()
    {
        var counts = Report.Counts;
        var failed = counts.Faulted > 0 ? Words["failed", ("count", ReadingWords.Number(counts.Faulted))] : "";
        return
        [
            Report.Summary,
            Words["counts", ("judged", ReadingWords.Number(counts.Judged)), ("requirements", ReadingWords.Number(counts.Requirements)), ("met", ReadingWords.Number(counts.Met)),
                ("not-met", ReadingWords.Number(counts.NotMet)), ("undetermined", ReadingWords.Number(counts.Undetermined)), ("failed", failed)],
            string.Join(", ", Report.RuleSets.Select(set => $"{set.Id} {set.Version}{(set.Status == RuleSetStatus.Draft ? $" ({Words["draft"]})" : "")}")),
            Responsible,
            .. Report.RuleSetNotes.Select(note => Words["rule-set-note", ("note", note)]),
            .. Report.LanguageNotes,
        ];
    }

    /// <summary>What happens when.</summary>
    public ReportSection Clock() => Lines("clock", Report.Schedule.Select(entry => $"{entry.LocalTime}  {Words.Of(entry.Subject)}{Words.Colon}{entry.What}"));

    /// <summary>The cautions that stand on every report.</summary>
    public ReportSection Cautions() => Lines("caution", Report.Cautions);

    /// <summary>A section of plain lines.</summary>
    public ReportSection Lines(string key, IEnumerable<string> lines) => new(Words[key], [.. lines.Select(line => new ReportEntry(line))]) { Name = key };

    /// <summary>The view of the sections that have something to say.</summary>
    public static ReportView View(string word, string title, ImmutableArray<string> head, params IEnumerable<ReportSection> sections) =>
        new(word, title, head, [.. sections.Where(section => section.Entries.Length > 0)]);
}
