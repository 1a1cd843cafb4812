using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>Findings as entries: in one line, or with all that is said of them.</summary>
internal static class FindingEntries
{
    private const string DataSheet = "data sheet";
    private const string GeneralPractice = "general-practice";

    /// <summary>A finding in one line.</summary>
    public static ReportEntry Short(Arrangement at, Finding finding) => Marked(finding, new($"{at.Words.Of(finding.Subject)}{at.Words.Colon}{finding.Found} [{finding.Requirement}]"));

    /// <summary>A finding with what would put it right.</summary>
    /// <param name="at">The report that is arranged.</param>
    /// <param name="finding">The finding.</param>
    /// <param name="sources">With the caution, worked steps, layers and evidence.</param>
    public static ReportEntry Full(Arrangement at, Finding finding, bool sources) => Marked(
        finding, new($"{at.Words.Of(finding.Subject)} · {finding.Requirement}{Outcome(at.Words, finding)}", [.. Details(at, finding, sources).Where(detail => detail.Text.Length > 0)]));

    /// <summary>An entry that tells of a finding.</summary>
    public static ReportEntry Marked(Finding finding, ReportEntry entry) => entry with { Severity = finding.Severity, Requirement = finding.Requirement };

    private static IEnumerable<ReportDetail> Details(Arrangement at, Finding finding, bool sources)
    {
        var words = at.Words;
        yield return new ReportDetail("", finding.Found);
        yield return new ReportDetail("", finding.Limit is { Layer: DataSheet } ? words["by-data-sheet"] : "");
        yield return new ReportDetail(words["label-remedy"], finding.Remedy);
        foreach (var tried in RemedyEntries.Tried(at, finding))
        {
            yield return tried;
        }

        yield return new ReportDetail(words["label-release"], finding.Severity == Severity.HoldPoint ? at.AnyOf(finding.ReleaseRoles) : "");
        yield return new ReportDetail(words["label-capped"], finding.CappedBecause);
        yield return new ReportDetail(words["label-caution"], finding.Severity >= Severity.HoldPoint || sources ? finding.Caution : "");
        foreach (var detail in sources ? Behind(at, finding) : [])
        {
            yield return detail;
        }

        yield return new ReportDetail(words["label-source"], string.Join(words.Semicolon, finding.Sources.Select(source => $"{source.Citation} ({(sources ? $"{words.Named("word", source.Layer)}, " : "")}{words.Of(source.Status)})")));
    }

    // How the number was worked out, which layer decided, what the others say of the same limit.
    private static IEnumerable<ReportDetail> Behind(Arrangement at, Finding finding)
    {
        var words = at.Words;
        foreach (var step in finding.Steps)
        {
            yield return new ReportDetail(words["label-worked"], Step(at, step));
        }

        if (finding.Limit is { } limit)
        {
            var below = limit.Below.IsEmpty ? "" : $"{words.Semicolon}{string.Join(", ", limit.Below.Select(other => Says(at, limit.Name, other.Layer, other.Value, other.Direction)))}";
            yield return new ReportDetail(words["label-limit"], Says(at, limit.Name, limit.Layer, Sided(limit), limit.Direction) + below);
        }

        yield return new ReportDetail(words["label-severity-by"], finding.SeverityLayer is GeneralPractice ? "" : finding.SeverityLayer);
    }

    // Over the wire a value loses to which side it is rounded.
    private static Measure Sided(LimitUsed limit) => limit is { WorkedOut: true, Value.Quantity: { } value }
        ? limit.Direction == LimitDirection.AtLeast ? Measure.AtLeast(value) : Measure.AtMost(value)
        : limit.Value;

    /// <summary>What in the plan a finding rests on.</summary>
    public static ReportDetail Evidence(Arrangement at, Finding finding) => new(
        at.Words["label-evidence"],
        string.Join(at.Words.Semicolon, finding.Evidence.Select(evidence => evidence.Value is { } value ? $"{evidence.Path} = {at.Show(value)}" : evidence.Path)));

    private static string Says(Arrangement at, string name, string layer, Measure value, LimitDirection direction) => at.Words[
        value.Text is not null ? "layer-any-of" : direction == LimitDirection.AtLeast ? "layer-at-least" : "layer-at-most",
        ("layer", at.Words.Named("word", layer)),
        ("value", value.Count is null ? at.ShowWords(value) : at.Words["limit-count", ("count", at.ShowWords(value)), ("what", at.Words.Named("counted", name.Split('.')[^1]))])];

    private static string Step(Arrangement at, WorkedStep step) => at.Words[
        step.Inputs.IsEmpty ? "worked-plain" : "worked", ("name", at.Words.Step(step.Name)), ("formula", at.Words.Formula(step.Formula)),
        ("inputs", string.Join(", ", step.Inputs.Select(term => $"{at.Words.Symbol(term.Symbol)} = {at.ShowWords(term.Value)}"))), ("result", at.ShowWords(step.Result))];

    private static string Outcome(ReadingWords words, Finding finding) => finding.Outcome switch
    {
        Model.Outcome.Undetermined => $" · {words["not-known"]}",
        Model.Outcome.Faulted => $" · {words["failed-to-judge"]}",
        _ => "",
    };
}
