using System.Globalization;
using System.Text;
using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Cli.Output;

/// <summary>
/// A report as a crew lead reads it: the disposition first, then what stops, what holds, what needs care, each with the
/// numbers and what would put it right; today's numbers; what is unknown; the cautions.
/// </summary>
internal static class ReportText
{
    private const int MostUnknowns = 8;

    /// <summary>Writes a report.</summary>
    /// <param name="report">The report.</param>
    /// <param name="all">Cautions, reminders and sources in full.</param>
    public static string Write(Report report, bool all)
    {
        var output = new StringBuilder();
        Head(output, report);
        Findings(output, report, Severity.StopWork, "STOP WORK: do not start or go on", full: true, all);
        Findings(output, report, Severity.HoldPoint, "HOLD POINTS: a named person must release each first", full: true, all);
        Findings(output, report, Severity.Caution, "CAUTIONS", full: all, all);
        Findings(output, report, Severity.Reminder, "REMINDERS", full: all, all);
        Numbers(output, report);
        Schedule(output, report);
        Unknowns(output, report, all);
        TopicsNotJudged(output, report, all);
        Lines(output, "MAKE THIS CHECK AGAIN", report.AskAgainWhen);
        Lines(output, "RELAXATIONS IN FORCE", report.Relaxations);
        Lines(output, "CAUTION", report.Cautions);
        return output.ToString().TrimEnd();
    }

    private static void Head(StringBuilder output, Report report)
    {
        var word = report.Disposition switch
        {
            Disposition.Stop => "STOP",
            Disposition.Hold => "HOLD",
            Disposition.ProceedWithCautions => "PROCEED WITH CAUTIONS",
            _ => "PROCEED",
        };
        var counts = report.Counts;
        var indent = new string(' ', word.Length + 2);
        Paragraph.Write(output, $"{word}  ", $"{report.PlanName} · {StageName(report.Stage)}");
        Paragraph.Write(output, indent, report.Summary);
        var faulted = counts.Faulted > 0 ? $", {counts.Faulted} FAILED: this report is incomplete" : "";
        Paragraph.Write(output, indent, string.Create(CultureInfo.InvariantCulture,
            $"{counts.Judged} of {counts.Requirements} requirements judged; {counts.Met} times met, {counts.NotMet} not met, {counts.Undetermined} undetermined{faulted}."));
        Paragraph.Write(output, indent, string.Join(", ", report.RuleSets.Select(set => $"{set.Id} {set.Version}{(set.Status == RuleSetStatus.Draft ? " (draft)" : "")}")));
        Paragraph.Write(output, indent, report.ResponsiblePerson is { } person ? $"Responsible on site: {person}" : "Responsible on site: not named in the plan");
        foreach (var note in report.RuleSetNotes)
        {
            Paragraph.Write(output, indent, $"Rule sets: {note}");
        }

        foreach (var note in report.LanguageNotes)
        {
            Paragraph.Write(output, indent, note);
        }

        output.AppendLine();
    }

    private static void Findings(StringBuilder output, Report report, Severity severity, string title, bool full, bool sources)
    {
        var findings = report.Findings.Where(finding => finding.Severity == severity).ToList();
        if (findings.Count == 0)
        {
            return;
        }

        output.AppendLine(CultureInfo.InvariantCulture, $"{title} ({findings.Count})");
        // What is not known and would only be a reminder stands under "not known yet" as well.
        var shown = full || severity != Severity.Reminder ? findings : findings.Where(finding => finding.Outcome == Outcome.NotMet).ToList();
        if (shown.Count < findings.Count)
        {
            Paragraph.Write(output, "  ", $"{findings.Count - shown.Count} of what is not known yet; --all shows them");
        }

        foreach (var finding in shown)
        {
            var subject = SubjectName(finding.Subject);
            if (!full)
            {
                Paragraph.Write(output, "  ", $"{subject}: {finding.Found} [{finding.Requirement}]");
                continue;
            }

            Paragraph.Write(output, "  ", $"{subject} · {finding.Requirement}{OutcomeWord(finding)}");
            Paragraph.Write(output, "      ", finding.Found);
            if (finding.Limit is { Layer: "data sheet" })
            {
                Paragraph.Write(output, "      ", "The data sheet sets this limit.");
            }

            if (finding.Remedy.Length > 0)
            {
                Paragraph.Write(output, "      Put right: ", finding.Remedy);
            }

            if (severity == Severity.HoldPoint && finding.ReleaseRoles.Length > 0)
            {
                Paragraph.Write(output, "      Release: ", string.Join(", or ", finding.ReleaseRoles));
            }

            if (finding.CappedBecause.Length > 0)
            {
                Paragraph.Write(output, "      Why a hold: ", finding.CappedBecause);
            }

            if (severity == Severity.StopWork || sources)
            {
                Paragraph.Write(output, "      Caution: ", finding.Caution);
            }

            if (sources)
            {
                foreach (var step in finding.Steps)
                {
                    Paragraph.Write(output, "      Worked: ", Step(step, report.Units));
                }

                Layers(output, finding, report.Units);
            }

            Paragraph.Write(output, "      Source: ", string.Join("; ", finding.Sources.Select(source => $"{source.Citation} ({(sources ? $"{source.Layer}, " : "")}{StatusName(source.Status)})")));
        }

        output.AppendLine();
    }

    // Which layer decided, and what the others say of the same limit.
    private static void Layers(StringBuilder output, Finding finding, DisplayUnits units)
    {
        if (finding.Limit is { } limit)
        {
            var below = limit.Below.IsEmpty ? "" : $"; {string.Join(", ", limit.Below.Select(other => $"{other.Layer} says {Bound(other.Value, other.Direction, units)}"))}";
            Paragraph.Write(output, "      Limit: ", $"{limit.Layer} says {Bound(limit.Value, limit.Direction, units)}{below}");
        }

        if (finding.SeverityLayer is not ("" or RuleLibrary.GeneralPractice))
        {
            Paragraph.Write(output, "      Severity by: ", finding.SeverityLayer);
        }
    }

    private static string Bound(Measure value, LimitDirection direction, DisplayUnits units) =>
        $"{(value.Text is not null ? "any of" : direction == LimitDirection.AtLeast ? "at least" : "at most")} {MeasureText.Show(value, units)}";

    private static void Numbers(StringBuilder output, Report report)
    {
        if (report.Numbers.IsEmpty)
        {
            return;
        }

        output.AppendLine(report.Disposition == Disposition.Stop ? "NUMBERS OF THIS PLAN (it is stopped: not to be worked by)" : "TODAY'S NUMBERS");
        foreach (var number in report.Numbers)
        {
            var aim = number.Aim is { } value ? $" {MeasureText.Show(value, report.Units, NumberStyle.Of(report))}" : "";
            var range = (number.Low, number.High) switch
            {
                // Narrower than a tenth of a second: no rounding is safe on both sides, so the ends are shown as they are.
                ({ Quantity: Duration least }, { Quantity: Duration most }) when (Duration)AtLeast(Measure.Of(least)).Quantity! > (Duration)AtMost(Measure.Of(most)).Quantity! =>
                    string.Create(CultureInfo.InvariantCulture, $" ({least.Seconds:0.000} s to {most.Seconds:0.000} s: narrower than a hand can hold; make more test shots)"),
                ({ } low, { } high) => $" ({MeasureText.Show(AtLeast(low), report.Units, NumberStyle.Of(report))} to {MeasureText.Show(AtMost(high), report.Units, NumberStyle.Of(report))})",
                ({ } low, null) => $" (not below {MeasureText.Show(AtLeast(low), report.Units, NumberStyle.Of(report))})",
                (null, { } high) => $" (not above {MeasureText.Show(AtMost(high), report.Units, NumberStyle.Of(report))})",
                _ => "",
            };
            var note = number.Note.Length > 0 ? $"; {number.Note}" : "";
            Paragraph.Write(output, "  ", $"{SubjectName(number.Subject)}: {number.Name}{aim}{range}{note}");
        }

        output.AppendLine();
    }

    // Times are rounded to the safe side: a least time up, to a tenth of a second or to the next five minutes; a greatest time
    // down, to a tenth. What the rounding of a sum leaves behind is no reason for another step.
    private static Measure AtLeast(Measure measure) => measure.Quantity is not Duration time ? measure
        : Measure.Of(time.Seconds < 120 ? Duration.FromSeconds(Math.Ceiling((time.Seconds * 10) - 1e-6) / 10) : Duration.FromMinutes(Math.Ceiling((time.Minutes / 5) - 1e-6) * 5));

    private static Measure AtMost(Measure measure) => measure.Quantity is not Duration time ? measure
        : Measure.Of(time.Seconds < 120 ? Duration.FromSeconds(Math.Floor((time.Seconds * 10) + 1e-6) / 10) : Duration.FromMinutes(Math.Floor((time.Minutes * 10) + 1e-6) / 10));

    private static void Schedule(StringBuilder output, Report report)
    {
        if (report.Schedule.IsEmpty)
        {
            return;
        }

        output.AppendLine("CLOCK");
        foreach (var entry in report.Schedule)
        {
            Paragraph.Write(output, "  ", $"{entry.LocalTime}  {SubjectName(entry.Subject)}: {entry.What}");
        }

        output.AppendLine();
    }

    private static void Unknowns(StringBuilder output, Report report, bool all)
    {
        if (report.Unknowns.IsEmpty)
        {
            return;
        }

        output.AppendLine("NOT KNOWN YET (answers that matter most first)");
        foreach (var unknown in report.Unknowns.Take(all ? int.MaxValue : MostUnknowns))
        {
            var worst = unknown.Worst is { } severity ? $", worst is {SeverityName(severity)}" : "";
            var wait = unknown.Waiting == 1 ? "1 judgement waits" : $"{unknown.Waiting} judgements wait";
            Paragraph.Write(output, "  ", $"{unknown.Path}: {wait}{worst}");
        }

        if (!all && report.Unknowns.Length > MostUnknowns)
        {
            output.AppendLine(CultureInfo.InvariantCulture, $"  and {report.Unknowns.Length - MostUnknowns} more; --all shows them");
        }

        output.AppendLine();
    }

    private static void TopicsNotJudged(StringBuilder output, Report report, bool all)
    {
        if (all || report.TopicsNotJudged.IsEmpty)
        {
            Lines(output, "NOT JUDGED YET by these rule sets; judge by hand", report.TopicsNotJudged);
            return;
        }

        var topics = report.TopicsNotJudged.Select(topic => topic.Split(':')[0]);
        Paragraph.Write(output, "NOT JUDGED YET, in part or whole; judge by hand: ", $"{string.Join(", ", topics)} (--all says what)");
        output.AppendLine();
    }

    private static void Lines(StringBuilder output, string title, IReadOnlyCollection<string> lines)
    {
        if (lines.Count == 0)
        {
            return;
        }

        output.AppendLine(title);
        foreach (var line in lines)
        {
            Paragraph.Write(output, "  ", line);
        }

        output.AppendLine();
    }

    private static string OutcomeWord(Finding finding) => finding.Outcome switch
    {
        Outcome.Undetermined => " · not known",
        Outcome.Faulted => " · FAILED TO JUDGE",
        _ => "",
    };

    private static string Step(WorkedStep step, DisplayUnits units) =>
        $"{step.Name}: {step.Formula} with {string.Join(", ", step.Inputs.Select(term => $"{term.Symbol} = {MeasureText.Show(term.Value, units)}"))} gives {MeasureText.Show(step.Result, units)}";

    internal static string SubjectName(Subject subject) => subject.Kind switch
    {
        SubjectKind.Plan => "the job",
        SubjectKind.Area => $"area {subject.Id}",
        SubjectKind.Product => $"product {subject.Id}",
        SubjectKind.Person => $"person {subject.Id}",
        _ => subject.Id,
    };

    internal static string StageName(Stage stage) => stage switch
    {
        Stage.PreStart => "pre-start",
        Stage.CloseOut => "close-out",
        _ => stage.ToString().ToLowerInvariant(),
    };

    internal static string SeverityName(Severity severity) => severity switch
    {
        Severity.StopWork => "stop work",
        Severity.HoldPoint => "hold point",
        _ => severity.ToString().ToLowerInvariant(),
    };

    internal static string StatusName(SourceStatus status) => status switch
    {
        SourceStatus.Read => "text read",
        SourceStatus.Secondary => "read as restated by others",
        SourceStatus.FromMemory => "from memory",
        SourceStatus.CommonPractice => "common practice, no source",
        SourceStatus.DataSheet => "as given in the plan",
        _ => "arithmetic",
    };
}
