using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>Saturation and the vapour line of the Glaser method, in Pa, m and °C.</summary>
internal static class Vapour
{
    /// <summary>δ₀, vapour permeability of still air, kg/(m s Pa). Source: ISO 13788 (from memory, high).</summary>
    public const double PermeabilityOfAir = 2e-10;

    // ISO 13788 annex E (from memory, high).
    public static double Iso(double celsius) => celsius >= 0
        ? 610.5 * Math.Exp(17.269 * celsius / (237.3 + celsius))
        : 610.5 * Math.Exp(21.875 * celsius / (265.5 + celsius));

    public static Func<double, double> Saturation(Func<Temperature, Pressure>? given) =>
        given is null ? Iso : celsius => given(Temperature.FromDegreesCelsius(celsius)).Pascals;

    /// <summary>
    /// Where vapour condenses: the vapour line is the string pulled tight below the saturation pressures, from end to end
    /// and through every place that is already wet. Returns the net flow into each place, kg/(m² s): 0 where the string
    /// does not bend, negative where a wet place dries.
    /// </summary>
    /// <param name="s">Place of each node in s_d, rising; the ends are the surfaces.</param>
    /// <param name="pressure">Saturation pressure at each node; at the ends the vapour pressure there.</param>
    /// <param name="wet">Nodes that hold water from before.</param>
    public static double[] Flows(ReadOnlySpan<double> s, ReadOnlySpan<double> pressure, ReadOnlySpan<bool> wet)
    {
        var on = new List<int> { 0 };
        var wetUpTo = 0;
        for (var i = 1; i < s.Length; i++)
        {
            // A node above the line from the one before it to this one does not hold the string down; a wet one stays.
            while (on.Count > 1 && on[^1] > wetUpTo && Above(s, pressure, on[^2], on[^1], i))
                on.RemoveAt(on.Count - 1);
            on.Add(i);
            if (wet[i])
                wetUpTo = i;
        }

        var flows = new double[s.Length];
        for (var i = 1; i + 1 < on.Count; i++)
        {
            var (before, at, after) = (on[i - 1], on[i], on[i + 1]);
            flows[at] = PermeabilityOfAir * ((pressure[before] - pressure[at]) / (s[at] - s[before]) - (pressure[at] - pressure[after]) / (s[after] - s[at]));
        }

        return flows;
    }

    private static bool Above(ReadOnlySpan<double> s, ReadOnlySpan<double> p, int a, int b, int c) =>
        (p[b] - p[a]) * (s[c] - s[a]) >= (p[c] - p[a]) * (s[b] - s[a]);
}
