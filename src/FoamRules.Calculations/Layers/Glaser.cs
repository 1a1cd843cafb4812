using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A climate on both sides. Indoor humidity is that of the use (pool, food plant, hospital); there is no default.</summary>
/// <param name="Inside">Inside air, −60 to 100 °C.</param>
/// <param name="InsideHumidity">Its relative humidity, 0 to 100 %.</param>
/// <param name="Outside">Outside air.</param>
/// <param name="OutsideHumidity">Its relative humidity.</param>
public sealed record WallClimate(Temperature Inside, Ratio InsideHumidity, Temperature Outside, Ratio OutsideHumidity);

/// <summary>A month of a climate.</summary>
/// <param name="Name">The month.</param>
/// <param name="Length">How long it lasts, above 0 and at most 32 days.</param>
/// <param name="Climate">Its mean climate.</param>
public sealed record ClimateMonth(string Name, Duration Length, WallClimate Climate);

/// <summary>Vapour that condenses between two layers.</summary>
/// <param name="Inner">The layer on its inside.</param>
/// <param name="Outer">The layer on its outside.</param>
/// <param name="Rate">How much condenses.</param>
public sealed record Condensation(string Inner, string Outer, MassFlux Rate);

/// <summary>Condensation at a steady climate.</summary>
/// <param name="Interfaces">Where vapour condenses, from the inside; empty when nowhere.</param>
/// <param name="OnInnerSurface">True when it condenses on the inner surface itself.</param>
/// <param name="Temperatures">Temperatures at the inner surface, between the layers and at the outer surface.</param>
public sealed record GlaserResult(ImmutableArray<Condensation> Interfaces, bool OnInnerSurface, ImmutableArray<Temperature> Temperatures);

/// <summary>Water held between two layers at the end of a month.</summary>
/// <param name="Month">The month.</param>
/// <param name="Inner">The layer on its inside.</param>
/// <param name="Outer">The layer on its outside.</param>
/// <param name="Held">Water held.</param>
public sealed record HeldWater(string Month, string Inner, string Outer, AreaDensity Held);

/// <summary>A year of condensing and drying.</summary>
/// <param name="Condenses">True when water is held in any month.</param>
/// <param name="FirstMonth">The month in which condensing begins, or null.</param>
/// <param name="Months">Water held, month by month from the first, where there is any.</param>
/// <param name="Most">The most that is held in all at the end of a month.</param>
/// <param name="Left">What is left in all when the year is over.</param>
/// <param name="DriesOut">True when nothing is left.</param>
/// <param name="OnInnerSurface">Months in which vapour condenses on the inner surface.</param>
public sealed record GlaserYear(
    bool Condenses, string? FirstMonth, ImmutableArray<HeldWater> Months, AreaDensity Most, AreaDensity Left, bool DriesOut, ImmutableArray<string> OnInnerSurface);

/// <summary>
/// Calculation 4.14, moisture: g = δ₀ Δp/s_d; vapour condenses where the straight vapour line would pass above saturation, at
/// the interfaces where the string pulled tight below saturation bends: g_c = δ₀[(p_i − p_c)/s − (p_c − p_e)/s'].
/// By month: condensing begins in the first month that condenses after one that does not; a wet interface stays at saturation
/// and dries until empty; what a month cannot take out is nothing.
/// Range: −60 to 100 °C; one-dimensional diffusion only: no air leaks, no rain, no storage, no capillary flow.
/// Source: ISO 13788 (from memory, high); worked wall of handbook 7 section 7.
/// </summary>
public static class Glaser
{
    private const string Source = "ISO 13788 (from memory, high), δ₀ 2e-10 kg/(m s Pa)";

    /// <summary>Condensation at a steady climate, such as a design day.</summary>
    /// <param name="layers">The layers from the inside.</param>
    /// <param name="surfaces">The surface resistances for heat.</param>
    /// <param name="climate">The climate.</param>
    /// <param name="saturation">Saturation pressure; ISO 13788's own formula when null.</param>
    public static Calculated<GlaserResult> Steady(
        ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, WallClimate climate, Func<Temperature, Pressure>? saturation = null)
    {
        if ((Layers.Bad(layers, surfaces) ?? BadSd(layers) ?? Bad(climate)) is { } refusal)
            return Calculated<GlaserResult>.Refuse(refusal);
        var wall = new Wall(layers, surfaces, Vapour.Saturation(saturation));
        var state = wall.At(climate);
        if (state.Bad is { } pressure)
            return Calculated<GlaserResult>.Refuse(pressure);
        var flows = Vapour.Flows(wall.S, state.Pressure, new bool[wall.S.Length]);
        ImmutableArray<Condensation> found = [.. wall.Interfaces(flows, flow => flow > 0).Select(at => new Condensation(at.Inner, at.Outer, MassFlux.FromKilogramsPerSecondPerSquareMeter(at.Value)))];
        var result = new GlaserResult(found, state.OnSurface, [.. Layers.Profile(layers, surfaces, climate.Inside.DegreesCelsius, climate.Outside.DegreesCelsius).Select(value => Temperature.FromDegreesCelsius(value))]);
        return Calculated<GlaserResult>.From(result,
        [
            Of("inside vapour pressure", "p_i = φ p_sat(θ_i)", Pressure.FromPascals(state.Inside), Source, In("θ_i", "inside air", climate.Inside), In("φ", "relative humidity", climate.InsideHumidity)),
            Of("outside vapour pressure", "p_e = φ p_sat(θ_e)", Pressure.FromPascals(state.Outside), Source, In("θ_e", "outside air", climate.Outside), In("φ", "relative humidity", climate.OutsideHumidity)),
            .. found.Select(at => Of($"condensation between {at.Inner} and {at.Outer}", "g_c = δ₀[(p_i − p_c)/s − (p_c − p_e)/s']", at.Rate, Source)),
            .. found.IsEmpty ? [Of("condensation", "the vapour line stays below saturation", Measure.OfText("none"), Source)] : Array.Empty<WorkedStep>(),
        ]);
    }

    /// <summary>A year of condensing and drying, twelve months that follow one another.</summary>
    /// <param name="layers">The layers from the inside.</param>
    /// <param name="surfaces">The surface resistances for heat.</param>
    /// <param name="months">The twelve months.</param>
    /// <param name="saturation">Saturation pressure; ISO 13788's own formula when null.</param>
    public static Calculated<GlaserYear> Year(
        ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, ImmutableArray<ClimateMonth> months, Func<Temperature, Pressure>? saturation = null)
    {
        var bad = Layers.Bad(layers, surfaces) ?? BadSd(layers);
        if (months.IsDefault || months.Length != 12)
            bad ??= new Refusal("months", Measure.OfCount(months.IsDefault ? 0 : months.Length), "12", "a year is gone through from its first wet month");
        foreach (var month in months.IsDefault ? [] : months)
            bad ??= Gate.Inside($"length of {month.Name}", month.Length, month.Length.Days, 0, 32.000001, "above 0 and at most 32 days", "it is a month") ?? Bad(month.Climate);
        if (bad is not null)
            return Calculated<GlaserYear>.Refuse(bad);

        var wall = new Wall(layers, surfaces, Vapour.Saturation(saturation));
        var states = months.Select(month => wall.At(month.Climate)).ToArray();
        if (states.Select(state => state.Bad).FirstOrDefault(refusal => refusal is not null) is { } pressure)
            return Calculated<GlaserYear>.Refuse(pressure);
        ImmutableArray<string> onSurface = [.. months.Where((_, i) => states[i].OnSurface).Select(month => month.Name)];

        var dry = new bool[wall.S.Length];
        var condenses = states.Select(state => Vapour.Flows(wall.S, state.Pressure, dry).Any(flow => flow > 0)).ToArray();
        if (!condenses.Contains(true))
        {
            return Calculated<GlaserYear>.From(
                new GlaserYear(false, null, [], AreaDensity.Zero, AreaDensity.Zero, true, onSurface), Of("condensation in the year", "the vapour line stays below saturation in every month", Measure.OfText("none"), Source));
        }

        // The first wet month after a dry one; where no month is dry, any will do, for water only gathers.
        var first = Enumerable.Range(0, 12).Where(i => condenses[i] && !condenses[(i + 11) % 12]).Append(Array.IndexOf(condenses, true)).First();
        var held = new double[wall.S.Length];
        var (table, most) = (new List<HeldWater>(), 0.0);
        for (var k = 0; k < 12; k++)
        {
            var (month, state) = (months[(first + k) % 12], states[(first + k) % 12]);
            var flows = Vapour.Flows(wall.S, state.Pressure, Array.ConvertAll(held, water => water > 0));
            for (var i = 0; i < held.Length; i++)
                held[i] = Math.Max(0, held[i] + flows[i] * month.Length.Seconds);
            table.AddRange(wall.Interfaces(held, water => water > 0).Select(at => new HeldWater(month.Name, at.Inner, at.Outer, AreaDensity.FromKilogramsPerSquareMeter(at.Value))));
            most = Math.Max(most, held.Sum());
        }

        var year = new GlaserYear(
            true, months[first].Name, [.. table], AreaDensity.FromKilogramsPerSquareMeter(most), AreaDensity.FromKilogramsPerSquareMeter(held.Sum()), held.Sum() <= 0, onSurface);
        return Calculated<GlaserYear>.From(year,
        [
            .. table.Select(row => Of($"water between {row.Inner} and {row.Outer}, end of {row.Month}", "M = M + g_c t, not below 0", row.Held, Source)),
            Of("most held", "highest sum of a month", year.Most, Source), Of("left after a year", "sum at its end", year.Left, Source),
        ]);
    }

    private static Refusal? BadSd(ImmutableArray<WallLayer> layers)
    {
        var whole = Length.FromMeters(layers.Sum(layer => layer.DiffusionEquivalent.Meters));
        return Gate.Above("s_d of all layers", whole, whole.Meters, 0, "above 0 m", "a wall without resistance to vapour has no vapour line");
    }

    private static Refusal? Bad(WallClimate climate) =>
        Layers.BadAir("inside air", climate.Inside) ?? Layers.BadAir("outside air", climate.Outside)
        ?? Gate.Between("inside relative humidity", climate.InsideHumidity, climate.InsideHumidity.DecimalFractions, 0, 1, "0 to 100 %", "a relative humidity")
        ?? Gate.Between("outside relative humidity", climate.OutsideHumidity, climate.OutsideHumidity.DecimalFractions, 0, 1, "0 to 100 %", "a relative humidity");

    /// <summary>
    /// The wall as nodes along s_d: the surfaces and the interfaces between them. Interfaces without any s_d between them
    /// are one place for vapour, and its coldest side decides.
    /// </summary>
    private sealed class Wall
    {
        private readonly ImmutableArray<WallLayer> _layers;
        private readonly SurfaceResistances _surfaces;
        private readonly Func<double, double> _saturation;
        private readonly int[] _nodeOf;

        public Wall(ImmutableArray<WallLayer> layers, SurfaceResistances surfaces, Func<double, double> saturation)
        {
            (_layers, _surfaces, _saturation) = (layers, surfaces, saturation);
            var s = new List<double> { 0 };
            _nodeOf = new int[layers.Length + 1];
            for (var i = 0; i < layers.Length; i++)
            {
                if (layers[i].DiffusionEquivalent.Meters > 0)
                    s.Add(s[^1] + layers[i].DiffusionEquivalent.Meters);
                _nodeOf[i + 1] = s.Count - 1;
            }

            S = [.. s];
        }

        public double[] S { get; }

        public (double[] Pressure, double Inside, double Outside, bool OnSurface, Refusal? Bad) At(WallClimate climate)
        {
            var (i, e) = (climate.Inside.DegreesCelsius, climate.Outside.DegreesCelsius);
            var profile = Layers.Profile(_layers, _surfaces, i, e);
            var pressure = new double[S.Length];
            Array.Fill(pressure, double.PositiveInfinity);
            for (var at = 0; at < profile.Length; at++)
                pressure[_nodeOf[at]] = Math.Min(pressure[_nodeOf[at]], _saturation(profile[at]));
            var (inside, outside) = (climate.InsideHumidity.DecimalFractions * _saturation(i), climate.OutsideHumidity.DecimalFractions * _saturation(e));
            var bad = pressure.Append(inside).Append(outside).All(value => value >= 0 && double.IsFinite(value))
                ? null
                : new Refusal("saturation pressure", Measure.OfText("not a number"), "0 Pa or more", "the function that was given fails at one of the temperatures");
            var onSurface = inside > pressure[0];
            // At the surfaces the air's own pressure holds, unless it condenses there.
            pressure[0] = Math.Min(pressure[0], inside);
            pressure[^1] = Math.Min(pressure[^1], outside);
            return (pressure, inside, outside, onSurface, bad);
        }

        /// <summary>The interfaces whose node has a value that counts, each named by the layers around it.</summary>
        public IEnumerable<(string Inner, string Outer, double Value)> Interfaces(double[] values, Func<double, bool> counts)
        {
            for (var node = 1; node + 1 < S.Length; node++)
            {
                if (!counts(values[node]))
                    continue;
                var first = Array.IndexOf(_nodeOf, node);
                var last = Array.LastIndexOf(_nodeOf, node);
                yield return (_layers[first - 1].Name, _layers[last].Name, values[node]);
            }
        }
    }
}
