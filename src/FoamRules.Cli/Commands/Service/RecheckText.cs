using System.Globalization;
using System.Text;
using FoamRules.Records.Rechecks;

namespace FoamRules.Cli.Commands.Service;

/// <summary>A recheck's summary as text.</summary>
internal static class RecheckText
{
    public static string Of(RecheckSummary summary)
    {
        var output = new StringBuilder();
        output.AppendLine(CultureInfo.InvariantCulture, $"{summary.Checked} of {summary.Reviews} reviews checked with today's rule sets: {summary.Same} the same, {summary.Checked - summary.Same} otherwise.");
        output.AppendLine(CultureInfo.InvariantCulture, $"Disposition: {summary.Worse} worse, {summary.Milder} milder, {summary.NotJudged} cannot be judged any more.");
        if (summary.Requirements.Count > 0)
        {
            string[][] rows = [["findings that differ", "new", "harder", "softer", "gone", "other value"], .. summary.Requirements.Select(Row)];
            var widths = rows[0].Select((_, column) => rows.Max(row => row[column].Length)).ToArray();
            output.AppendLine();
            foreach (var row in rows)
            {
                output.AppendLine(string.Join("  ", row.Select((cell, column) => column == 0 ? cell.PadRight(widths[0]) : cell.PadLeft(widths[column]))));
            }
        }

        return output.ToString();
    }

    private static string[] Row(RequirementRechecked one) =>
        [one.Requirement, .. new[] { one.Appear, one.Tighten, one.Loosen, one.Vanish, one.Change }.Select(count => count.ToString(CultureInfo.InvariantCulture))];
}
