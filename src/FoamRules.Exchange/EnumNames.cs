using System.Collections.Concurrent;
using FoamRules.Model;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange;

/// <summary>
/// Names of enum values in files. The contract's full name is read (<c>FOAM_KIND_CLOSED_CELL_POUR</c>), and so is the part
/// that a person would write (<c>closed-cell-pour</c>, <c>CLOSED_CELL_POUR</c>).
/// </summary>
internal static class EnumNames
{
    private static readonly ConcurrentDictionary<EnumDescriptor, Dictionary<string, int>> Known = new();

    public static bool TryParse(EnumDescriptor type, string text, out int number) =>
        Known.GetOrAdd(type, Read).TryGetValue(Fold(text), out number);

    /// <summary>The names that a person may write, for messages.</summary>
    public static Said Allowed(EnumDescriptor type) =>
        $"one of {string.Join(", ", type.Values.Where(value => value.Number != 0).Select(value => Short(type, value.Name)))}";

    /// <summary>The short name of a value: <c>closed-cell-pour</c>.</summary>
    public static string Short(EnumDescriptor type, string name) => name[Prefix(type).Length..].ToLowerInvariant().Replace('_', '-');

    private static Dictionary<string, int> Read(EnumDescriptor type)
    {
        var names = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var value in type.Values)
        {
            names[Fold(value.Name)] = value.Number;
            names[Fold(value.Name[Prefix(type).Length..])] = value.Number;
        }

        return names;
    }

    /// <summary>What stands before the names of all values: <c>FOAM_KIND_</c>.</summary>
    public static string Prefix(EnumDescriptor type)
    {
        var zero = type.Values.Single(value => value.Number == 0).Name;
        return zero[..^"UNSPECIFIED".Length];
    }

    private static string Fold(string text) => text.Trim().ToUpperInvariant().Replace('-', '_').Replace(' ', '_');
}
