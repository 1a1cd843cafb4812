using System.Collections.Immutable;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>Reads <c>price.yaml</c>: what must be in the price, an entry a line of the list.</summary>
internal static class PriceReader
{
    public static ImmutableArray<PriceEntry> Read(EntryReader? file, Problems problems) =>
        file is null ? [] : [.. ((MapNode)file.Node).Entries.Select(entry => Read(entry, problems))];

    private static PriceEntry Read(MapEntry entry, Problems problems)
    {
        var one = new EntryReader(entry.Value, entry.Name, problems);
        var read = new PriceEntry
        {
            Id = entry.Name,
            What = one.RequiredText("what"),
            AskedBy = one.RequiredText("asked-by"),
            Quantity = one.RequiredText("quantity"),
            Limit = one.Text("limit"),
            Unit = one.Text("unit") ?? "",
            How = How(one, problems),
            Place = problems.Place(entry.Value, entry.Name),
        };
        one.Done();
        return read;
    }

    private static ImmutableSortedDictionary<string, string> How(EntryReader one, Problems problems)
    {
        var how = one.TextMap("how");
        if (how.IsEmpty)
        {
            problems.Add(one.Node, $"{one.Path}.how", "nothing", "a text, or texts by the way in which the quantity is worked out", "say how the quantity is worked out");
        }

        return how;
    }
}
