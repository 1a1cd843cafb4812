namespace FoamRules.Rules.Judging;

/// <summary>The contract's names as plain words, for sentences.</summary>
public static class EnumWords
{
    /// <summary>A name in plain words: <c>ClosedCellPour</c> is <c>closed cell pour</c>.</summary>
    public static string Of<T>(T name)
        where T : struct, Enum =>
        string.Concat(name.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? $" {char.ToLowerInvariant(c)}" : $"{char.ToLowerInvariant(c)}"));

    /// <summary>Names in plain words, joined by commas.</summary>
    public static string Of<T>(IEnumerable<T> names)
        where T : struct, Enum =>
        string.Join(", ", names.Select(name => Of(name)));
}
