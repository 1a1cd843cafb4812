using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Exchange;

/// <summary>Finds the line of a field's path in the text that the plan was read from.</summary>
public sealed class LineFinder(DataNode root)
{
    /// <summary>What cannot be read and what is impossible, each once, with its line in a text.</summary>
    /// <param name="root">The text.</param>
    /// <param name="unreadable">What cannot be read; it has its lines.</param>
    /// <param name="impossible">What was found of the message that was read.</param>
    public static IReadOnlyList<Violation> Of(DataNode root, IReadOnlyList<Violation> unreadable, IReadOnlyList<Violation> impossible) => new LineFinder(root).Join(unreadable, impossible, null);

    /// <summary>What is impossible, with its line in a text.</summary>
    /// <param name="root">The text.</param>
    /// <param name="impossible">What was found of the message that was read.</param>
    public static IReadOnlyList<Violation> Of(DataNode root, IReadOnlyList<Violation> impossible) => new LineFinder(root).Join([], impossible, null);

    /// <summary>What cannot be read and what is impossible, each once, with its line, in the order of the text.</summary>
    internal IReadOnlyList<Violation> Join(IReadOnlyList<Violation> unreadable, IEnumerable<Violation> impossible, string? file)
    {
        // A field that could not be read comes out as missing or empty too; saying it once is enough.
        var real = impossible.Select(violation => Place(violation) with { File = file })
            .Where(violation => !unreadable.Any(known => known.Path == violation.Path || known.Path.StartsWith(violation.Path + ".", StringComparison.Ordinal)));
        return [.. unreadable.Concat(real).OrderBy(violation => violation.Line).ThenBy(violation => violation.Column)];
    }

    private Violation Place(Violation violation)
    {
        var (line, column) = Find(violation.Path);
        return violation with { Line = line, Column = column };
    }

    /// <summary>Where a field stands, or the nearest part above it that stands in the text.</summary>
    /// <param name="path">Its path; an entry of a list is named by its number from 0, or by its id as in reports.</param>
    internal (int Line, int Column) Find(string path)
    {
        var node = root;
        var (line, column) = (root.Line, root.Column);
        foreach (var step in path.Split('.'))
        {
            var bracket = step.IndexOf('[', StringComparison.Ordinal);
            var name = bracket < 0 ? step : step[..bracket];
            var entry = (node as MapNode)?.Entries.FirstOrDefault(entry => entry.Name == name || Snake(entry.Name) == name);
            if (entry is null)
            {
                break;
            }

            (node, line, column) = (entry.Value, entry.Line, entry.Column);
            if (bracket >= 0 && node is ListNode list && Entry(list, step[(bracket + 1)..^1]) is { } found)
            {
                node = found;
                (line, column) = (node.Line, node.Column);
            }
        }

        return (line, column);
    }

    private static DataNode? Entry(ListNode list, string key) =>
        list.Items.FirstOrDefault(item => item is MapNode map && map["id"] is ScalarNode { Text: { } id } && id == key)
            ?? (int.TryParse(key, System.Globalization.NumberStyles.None, System.Globalization.CultureInfo.InvariantCulture, out var index) && index < list.Items.Count ? list.Items[index] : null);

    private static string Snake(string jsonName) => PathStep.FieldName(jsonName);
}
