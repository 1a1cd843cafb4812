namespace FoamRules.RuleSets.Declared;

/// <summary>Texts of compiled expressions.</summary>
internal static class Texts
{
    /// <summary>Orders texts by their code points, as the language does; UTF-16 would put the rarest characters too low.</summary>
    public static int Compare(string a, string b)
    {
        var most = Math.Min(a.Length, b.Length);
        for (var i = 0; i < most; i++)
        {
            if (a[i] != b[i])
            {
                return char.IsSurrogate(a[i]) == char.IsSurrogate(b[i]) ? a[i].CompareTo(b[i]) : char.IsSurrogate(a[i]) ? 1 : -1;
            }
        }

        return a.Length.CompareTo(b.Length);
    }

    public static long Size(string text) => text.Length - text.Count(char.IsLowSurrogate);

    public static string Join(string a, string b) => a + b;

    public static bool Contains(string text, string part) => text.Contains(part, StringComparison.Ordinal);

    public static bool StartsWith(string text, string part) => text.StartsWith(part, StringComparison.Ordinal);

    public static bool EndsWith(string text, string part) => text.EndsWith(part, StringComparison.Ordinal);
}
