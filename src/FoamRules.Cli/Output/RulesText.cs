using System.Globalization;
using System.Text;
using FoamRules.Model;
using FoamRules.Readings;
using FoamRules.RuleSets;
using Spectre.Console;
using Cell = Spectre.Console.Text;

namespace FoamRules.Cli.Output;

/// <summary>Requirements as a person reads them.</summary>
internal static class RulesText
{
    private static readonly Stage[] Stages = [Stage.Quote, Stage.Plan, Stage.PreStart, Stage.CloseOut];

    /// <summary>Writes a list, by topic.</summary>
    public static void WriteList(IReadOnlyList<RequirementSpec> requirements)
    {
        var table = Tables.Of("requirement", "what must hold");
        table.Columns[0].NoWrap();
        foreach (var topic in requirements.GroupBy(spec => spec.Topic))
        {
            if (table.Rows.Count > 0)
            {
                table.AddEmptyRow();
            }

            foreach (var spec in topic)
            {
                table.AddRow(new Cell(spec.Id), new Cell(spec.Must));
            }
        }

        Tables.Write(table);
        Console.Out.WriteLine($"{requirements.Count} requirements; `foamrules rules ID` explains one.");
    }

    /// <summary>One requirement in full.</summary>
    public static string Explain(RequirementSpec spec, DisplayUnits units)
    {
        var output = new StringBuilder();
        output.AppendLine(spec.Id);
        Paragraph.Write(output, "  ", spec.Must);
        output.AppendLine();
        output.AppendLine("  Severity        " + string.Join("  ", Stages.Select(stage => ReportNames.Of(stage).PadRight(12))).TrimEnd());
        output.AppendLine("    not met       " + Row(spec.NotMet));
        output.AppendLine("    not known     " + Row(spec.Missing));
        foreach (var (name, tier) in spec.Tiers)
        {
            output.AppendLine(CultureInfo.InvariantCulture, $"    {name,-13} {Row(tier.Missing ?? tier.NotMet)}");
        }

        output.AppendLine();
        if (spec.Declared is { } declared)
        {
            if (declared.Applies is { } applies)
            {
                Paragraph.Write(output, "  Applies ", applies.Text);
            }

            Paragraph.Write(output, "  Met     ", declared.Met.Text);
        }

        foreach (var limit in spec.Limits.Values)
        {
            Paragraph.Write(output, "  Limit   ", $"{limit.Name}: {Said(limit, units)}");
            foreach (var other in limit.Below)
            {
                Paragraph.Write(output, "          ", $"{(other.IsOverruled ? "relaxed: " : "")}{Said(other, units)}");
            }
        }

        foreach (var source in spec.Sources)
        {
            Paragraph.Write(output, "  Source  ", $"{source.Citation} ({source.Layer}, {ReportNames.Of(source.Status)})");
        }

        foreach (var remedy in spec.Remedies.Values.Distinct())
        {
            Paragraph.Write(output, "  Remedy  ", remedy);
        }

        if (spec.Example.Length > 0)
        {
            Paragraph.Write(output, "  Example ", spec.Example);
        }

        Paragraph.Write(output, "  Caution ", spec.Caution);
        if (spec.Release.Length > 0)
        {
            Paragraph.Write(output, "  Release ", $"a hold may be released by: {string.Join(", ", spec.Release)}");
        }

        if (spec.ImminentSetBy is { } role)
        {
            Paragraph.Write(output, "  Stops   ", $"flagged as imminent danger by the {role}, so that weak sources do not lower it");
        }

        output.AppendLine();
        return output.ToString();
    }

    private static string Said(Limit limit, DisplayUnits units) =>
        $"{LimitText.Show(limit, units)} ({limit.Layer}: {limit.Source.Citation}, {ReportNames.Of(limit.Source.Status)})";

    private static string Row(Severities severities) =>
        string.Join("  ", Stages.Select(stage => (severities.At(stage) is { } severity ? ReportNames.Of(severity) : "-").PadRight(12))).TrimEnd();
}
