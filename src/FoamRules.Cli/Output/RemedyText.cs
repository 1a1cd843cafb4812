using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FoamRules.Model;

namespace FoamRules.Cli.Output;

/// <summary>The changes that were tried, below the finding that each clears and for the plan as a whole.</summary>
internal static class RemedyText
{
    /// <summary>Writes what was tried for a finding; nothing where no change that may be made clears it.</summary>
    public static void Tried(StringBuilder output, Report report, Finding finding)
    {
        if (report.Remedies?.Tried.FirstOrDefault(tried => tried.Requirement == finding.Requirement && tried.Subject == finding.Subject) is not { } remedy)
        {
            return;
        }

        Paragraph.Write(output, "      Tried: ", $"{string.Join("; ", remedy.Changes.Select(Change))}. Checked again, it clears this finding.");
        var others = remedy.Cleared.Where(cleared => cleared.Requirement != finding.Requirement || cleared.Subject != finding.Subject).ToImmutableArray();
        Named(output, "      Clears too: ", others);
        Named(output, "      Brings: ", remedy.Brought);
        Effects(output, "      Then: ", remedy.Effects);
    }

    /// <summary>Writes the changes that were tried together, and what is left to people.</summary>
    public static void WholePlan(StringBuilder output, Report report)
    {
        if (report.Remedies?.WholePlan is not { } whole)
        {
            return;
        }

        output.AppendLine("TRIED TOGETHER, on a copy of the plan");
        if (whole.Changes.IsEmpty)
        {
            Paragraph.Write(output, "  ", "No change of what may be chosen puts a finding right.");
        }

        foreach (var change in whole.Changes)
        {
            Paragraph.Write(output, "  ", Change(change));
        }

        Named(output, "  Clears: ", whole.Cleared);
        Named(output, "  Brings: ", whole.Brought);
        Effects(output, "  Then: ", whole.Effects);
        Paragraph.Write(output, "  ", whole.Decisions.IsEmpty
            ? $"The plan then comes out as: {Word(whole.Disposition)}."
            : string.Create(CultureInfo.InvariantCulture, $"The plan then comes out as: {Word(whole.Disposition)}. {whole.Decisions.Length} are left that only people can find out, decide or put right:"));
        foreach (var decision in whole.Decisions)
        {
            Paragraph.Write(output, "    ", $"{ReportText.SubjectName(decision.Subject)}: {decision.Found} [{decision.Requirement}, {ReportText.SeverityName(decision.Severity)}]");
        }

        output.AppendLine();
    }

    private static string Change(FieldChange change) => (change.Before, change.After) switch
    {
        (_, "") => $"{change.Path} taken out, to be asked for again",
        ("", _) => $"{change.Path} set to {change.After}",
        _ => $"{change.Path} from {change.Before} to {change.After}",
    };

    private static void Named(StringBuilder output, string head, ImmutableArray<FindingNamed> findings)
    {
        if (!findings.IsEmpty)
        {
            Paragraph.Write(output, head, string.Join("; ", findings.Select(finding => $"{ReportText.SubjectName(finding.Subject)} · {finding.Requirement} ({ReportText.SeverityName(finding.Severity)})")));
        }
    }

    private static void Effects(StringBuilder output, string head, ImmutableArray<RemedyEffect> effects)
    {
        if (!effects.IsEmpty)
        {
            Paragraph.Write(output, head, string.Join("; ", effects.Select(effect => $"{ReportText.SubjectName(effect.Subject)}: {effect.What} {(effect.Before.Length > 0 ? effect.Before : "none")} before, {(effect.After.Length > 0 ? effect.After : "none")} after")));
        }
    }

    private static string Word(Disposition disposition) => disposition switch
    {
        Disposition.Stop => "stop",
        Disposition.Hold => "hold",
        Disposition.ProceedWithCautions => "proceed with cautions",
        _ => "proceed",
    };
}
