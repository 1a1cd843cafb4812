using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Exchange;

/// <summary>Finds the line of a field's path in the text that the plan was read from.</summary>
internal sealed class LineFinder(DataNode root)
{
    /// <summary>What cannot be read and what is impossible, each once, with its line, in the order of the text.</summary>
    public IReadOnlyList<Violation> Join(IReadOnlyList<Violation> unreadable, IEnumerable<Violation> impossible, string? file)
    {
        // A field that could not be read comes out as missing or empty too; saying it once is enough.
        var real = impossible.Select(violation => Place(violation) with { File = file })
            .Where(violation => !unreadable.Any(known => known.Path == violation.Path || known.Path.StartsWith(violation.Path + ".", StringComparison.Ordinal)));
        return [.. unreadable.Concat(real).OrderBy(violation => violation.Line).ThenBy(violation => violation.Column)];
    }

    /// <summary>The violation with the line of its field, or of the nearest part above it that stands in the text.</summary>
    private Violation Place(Violation violation)
    {
        var node = root;
        var (line, column) = (root.Line, root.Column);
        foreach (var step in violation.Path.Split('.'))
        {
            var bracket = step.IndexOf('[', StringComparison.Ordinal);
            var name = bracket < 0 ? step : step[..bracket];
            var entry = (node as MapNode)?.Entries.FirstOrDefault(entry => entry.Name == name || Snake(entry.Name) == name);
            if (entry is null)
            {
                break;
            }

            (node, line, column) = (entry.Value, entry.Line, entry.Column);
            if (bracket >= 0 && node is ListNode list && int.TryParse(step[(bracket + 1)..^1], out var index) && index < list.Items.Count)
            {
                node = list.Items[index];
                (line, column) = (node.Line, node.Column);
            }
        }

        return violation with { Line = line, Column = column };
    }

    private static string Snake(string jsonName) => PathStep.FieldName(jsonName);
}
