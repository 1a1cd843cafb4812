using FoamRules.Text;

namespace FoamRules.Testing;

/// <summary>
/// A case written once for a table: <c>each</c> is a list of rows, and <c>{name}</c> stands for what the row gives. With <c>across</c>, a
/// second list, every row of one meets every row of the other.
/// </summary>
internal static class CaseTable
{
    /// <summary>The cases that a case with a table stands for; the case itself where it has none.</summary>
    /// <exception cref="InvalidOperationException">A name stands for nothing, or a column is not used.</exception>
    public static IEnumerable<MapNode> Of(MapNode written)
    {
        if (written["each"] is not ListNode each)
        {
            return [written];
        }

        var pattern = written with { Entries = [.. written.Entries.Where(entry => entry.Name is not ("each" or "across"))] };
        var rows = Rows(each);
        return written["across"] is ListNode across
            ? rows.SelectMany(row => Rows(across).Select(other => Filled(pattern, [.. row, .. other])))
            : rows.Select(row => Filled(pattern, row));
    }

    private static IEnumerable<IReadOnlyList<MapEntry>> Rows(ListNode rows) => rows.Items.Cast<MapNode>().Select(row => row.Entries);

    private static MapNode Filled(MapNode pattern, IReadOnlyList<MapEntry> row)
    {
        var used = new HashSet<string>();
        var filled = (MapNode)Fill(pattern);
        return row.FirstOrDefault(entry => !used.Contains(entry.Name)) is { } unused
            ? throw new InvalidOperationException($"line {unused.Line}: the column {unused.Name} is not used")
            : filled;

        DataNode Fill(DataNode node) => node switch
        {
            MapNode map => map with { Entries = [.. map.Entries.Select(entry => entry with { Name = FillText(entry.Name), Value = Fill(entry.Value) })] },
            ListNode list => list with { Items = [.. list.Items.Select(Fill)] },
            // Alone, a name stands for the row's value as it is: a number, a list, a mapping, nothing at all.
            ScalarNode { Text: ['{', .. var name, '}'] } when Find(name) is { } value => value,
            ScalarNode { Text: { } text } scalar => scalar with { Text = FillText(text) },
            _ => node,
        };

        string FillText(string text)
        {
            foreach (var entry in row.Where(entry => text.Contains($"{{{entry.Name}}}", StringComparison.Ordinal)))
            {
                used.Add(entry.Name);
                text = text.Replace($"{{{entry.Name}}}", ((ScalarNode)entry.Value).Text ?? "nothing", StringComparison.Ordinal);
            }

            return text.Contains('{', StringComparison.Ordinal) ? throw new InvalidOperationException($"line {pattern.Line}: `{text}` names what no column gives") : text;
        }

        DataNode? Find(string name)
        {
            used.Add(name);
            return row.FirstOrDefault(entry => entry.Name == name)?.Value;
        }
    }
}
