namespace FoamRules.Calculations;

/// <summary>Finds where an answer changes between two points. Slow but sure: it needs no slope and cannot leave the bracket.</summary>
internal static class Bracket
{
    /// <summary>
    /// Halves the interval until it cannot shrink. <paramref name="isBefore"/> holds at <paramref name="low"/> and not at
    /// <paramref name="high"/>; the point handed back is the first double found at which it no longer holds.
    /// </summary>
    public static double FirstAfter(Func<double, bool> isBefore, double low, double high)
    {
        while (true)
        {
            var middle = low + (high - low) / 2;
            if (middle <= low || middle >= high)
                return high;
            if (isBefore(middle))
                low = middle;
            else
                high = middle;
        }
    }
}
