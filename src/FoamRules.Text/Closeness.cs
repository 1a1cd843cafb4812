namespace FoamRules.Text;

/// <summary>How close two names are, to suggest the one that was meant.</summary>
public static class Closeness
{
    /// <summary>The number of letters to insert, drop or change to get from one name to the other (Levenshtein).</summary>
    public static int Distance(string a, string b)
    {
        // A pasted text is no misspelt name; and the cost grows with the product of the lengths.
        if (a.Length > 100 || b.Length > 100)
        {
            return int.MaxValue;
        }

        var previous = Enumerable.Range(0, b.Length + 1).ToArray();
        var current = new int[b.Length + 1];
        for (var i = 1; i <= a.Length; i++)
        {
            current[0] = i;
            for (var j = 1; j <= b.Length; j++)
            {
                var change = previous[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
                current[j] = Math.Min(change, Math.Min(previous[j], current[j - 1]) + 1);
            }

            (previous, current) = (current, previous);
        }

        return previous[b.Length];
    }
}
