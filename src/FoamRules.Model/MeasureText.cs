using System.Globalization;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Model;

/// <summary>Values as people read them: rounded, with their unit, in US customary or SI units. The report keeps the unrounded value.</summary>
public static class MeasureText
{
    // As many as a double can be rounded to.
    private const int MostDigits = 15;
    private static readonly CultureInfo Culture = CultureInfo.InvariantCulture;

    /// <summary>A value with its unit.</summary>
    /// <param name="measure">The value.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers; null: as English does.</param>
    public static string Show(Measure measure, DisplayUnits units, NumberStyle? style = null) => measure switch
    {
        { Quantity: { } quantity } => (style ?? NumberStyle.English).Of(Show(quantity, units, new Rounding(measure.Shown))),
        { Count: { } count } => count.ToString(Culture),
        { Date: { } date } => date.ToString("yyyy-MM-dd", Culture),
        { Instant: { } at } => at.ToString("yyyy-MM-dd HH:mm zzz", Culture),
        _ => measure.Text ?? "",
    };

    /// <summary>A range, its low end rounded up and its high end down; with more digits where the ends would pass each other.</summary>
    /// <param name="low">The low end.</param>
    /// <param name="high">The high end.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers; null: as English does.</param>
    public static (string Low, string High) ShowRange(IQuantity low, IQuantity high, DisplayUnits units, NumberStyle? style = null)
    {
        var more = 0;
        var (least, most) = Ends();
        while (IsAbove(least, most) && more < MostDigits)
        {
            more++;
            (least, most) = Ends();
        }

        var written = style ?? NumberStyle.English;
        return (written.Of(least), written.Of(most));

        (string Least, string Most) Ends() =>
            (Show(low, units, new Rounding(MidpointRounding.ToPositiveInfinity, more)), Show(high, units, new Rounding(MidpointRounding.ToNegativeInfinity, more)));
    }

    /// <summary>A quantity with its unit.</summary>
    /// <param name="quantity">The quantity.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers.</param>
    public static string Show(IQuantity quantity, DisplayUnits units, NumberStyle style) => style.Of(Show(quantity, units));

    /// <summary>A quantity with its unit, in English.</summary>
    /// <param name="quantity">The quantity.</param>
    /// <param name="units">The unit system.</param>
    public static string Show(IQuantity quantity, DisplayUnits units) => Show(quantity, units, new Rounding(MidpointRounding.AwayFromZero));

    private static string Show(IQuantity quantity, DisplayUnits units, Rounding way) => (quantity, units) switch
    {
        (Length length, DisplayUnits.Us) => UsLength(way, length),
        (Length length, _) => SiLength(way, length),
        (Temperature t, DisplayUnits.Us) => Number(way, t.DegreesFahrenheit, 1) + " °F",
        (Temperature t, _) => Number(way, t.DegreesCelsius, 1) + " °C",
        (TemperatureDelta d, DisplayUnits.Us) => Number(way, d.DegreesFahrenheit, 1) + " F°",
        (TemperatureDelta d, _) => Number(way, d.Kelvins, 1) + " K",
        (Duration time, _) => Time(way, time),
        (Area area, DisplayUnits.Us) => area.SquareFeet < 1 ? Number(way, area.SquareInches, 2) + " in²" : Number(way, area.SquareFeet, 1) + " ft²",
        (Area area, _) => area.SquareMeters < 0.1 ? Number(way, area.SquareMillimeters, 0) + " mm²" : Number(way, area.SquareMeters, 2) + " m²",
        (Volume volume, DisplayUnits.Us) => Number(way, volume.CubicFeet, 2) + " ft³",
        (Volume volume, _) => volume.CubicMeters >= 1 ? Number(way, volume.CubicMeters, 2) + " m³" : Number(way, volume.Liters, 1) + " L",
        (Mass mass, DisplayUnits.Us) => Number(way, mass.Pounds, 2) + " lb",
        (Mass mass, _) => mass.Kilograms < 0.1 ? Number(way, mass.Grams, 0) + " g" : Number(way, mass.Kilograms, 2) + " kg",
        (Density density, DisplayUnits.Us) => Number(way, density.PoundsPerCubicFoot, 2) + " lb/ft³",
        (Density density, _) => Number(way, density.KilogramsPerCubicMeter, 1) + " kg/m³",
        (RelativeHumidity humidity, _) => Number(way, humidity.Percent, 1) + " %",
        (Ratio ratio, _) => Number(way, ratio.Percent, 1) + " %",
        (Speed speed, DisplayUnits.Us) => Number(way, speed.MilesPerHour, 1) + " mph",
        (Speed speed, _) => Number(way, speed.MetersPerSecond, 1) + " m/s",
        (Pressure pressure, DisplayUnits.Us) => UsPressure(way, pressure),
        (Pressure pressure, _) => Math.Abs(pressure.Pascals) >= 1000 ? Number(way, pressure.Kilopascals, 2) + " kPa" : Number(way, pressure.Pascals, 1) + " Pa",
        (VolumeFlow flow, DisplayUnits.Us) when Math.Abs(flow.CubicFeetPerMinute) < 1 => Number(way, flow.UsGallonsPerMinute, 2) + " gal/min",
        (VolumeFlow flow, DisplayUnits.Us) => Number(way, flow.CubicFeetPerMinute, 1) + " ft³/min",
        (VolumeFlow flow, _) when Math.Abs(flow.LitersPerSecond) < 0.1 => Number(way, flow.LitersPerMinute, 2) + " L/min",
        (VolumeFlow flow, _) => flow.LitersPerSecond >= 100 ? Number(way, flow.CubicMetersPerHour, 0) + " m³/h" : Number(way, flow.LitersPerSecond, 2) + " L/s",
        // What a room gives off is far below what a gun puts out, and must not be shown as nothing.
        (MassFlow flow, DisplayUnits.Us) when flow.PoundsPerMinute != 0 && Math.Abs(flow.PoundsPerMinute) < 0.05 => Significant(way, flow.PoundsPerHour) + " lb/h",
        (MassFlow flow, _) when flow.GramsPerSecond != 0 && Math.Abs(flow.GramsPerSecond) < 0.5 => Significant(way, flow.GramsPerHour) + " g/h",
        (MassFlow flow, DisplayUnits.Us) => Number(way, flow.PoundsPerMinute, 2) + " lb/min",
        (MassFlow flow, _) => Number(way, flow.GramsPerSecond, 1) + " g/s",
        (VolumeConcentration level, _) => level.PartsPerMillion < 0.001 ? Significant(way, level.PartsPerBillion) + " ppb" : Significant(way, level.PartsPerMillion) + " ppm",
        (MassConcentration level, _) => Significant(way, level.MilligramsPerCubicMeter) + " mg/m³",
        (Frequency rate, _) => Number(way, rate.CyclesPerHour, 2) + " per hour",
        (Illuminance light, DisplayUnits.Us) => Number(way, FootCandles.In(light), 1) + " foot-candles",
        (Illuminance light, _) => Number(way, light.Lux, 0) + " lx",
        (Irradiation heat, DisplayUnits.Us) => Number(way, heat.BtusPerSquareFoot, 0) + " Btu/ft²",
        (Irradiation heat, _) => Number(way, heat.As(IrradiationUnit.KilojoulePerSquareMeter) / 1000, 2) + " MJ/m²",
        (Level level, _) => Number(way, level.Decibels, 1) + " dBA",
        (ElectricPotential voltage, _) => voltage.Kilovolts >= 1 ? Number(way, voltage.Kilovolts, 1) + " kV" : Number(way, voltage.Volts, 0) + " V",
        (Force force, DisplayUnits.Us) => Number(way, force.PoundsForce, 0) + " lbf",
        (Force force, _) => force.Kilonewtons >= 1 ? Number(way, force.Kilonewtons, 2) + " kN" : Number(way, force.Newtons, 0) + " N",
        (ThermalConductivity k, DisplayUnits.Us) => Number(way, k.BtusPerHourFootFahrenheit, 4) + " Btu/(h ft °F)",
        (ThermalConductivity k, _) => Number(way, k.WattsPerMeterKelvin, 4) + " W/(m K)",
        (ThermalResistance r, DisplayUnits.Us) => Number(way, r.HourSquareFeetDegreesFahrenheitPerBtu, 2) + " h ft² °F/Btu",
        (ThermalResistance r, _) => Number(way, r.SquareMeterKelvinsPerWatt, 3) + " m² K/W",
        (HeatTransferCoefficient h, DisplayUnits.Us) => Number(way, h.BtusPerHourSquareFootDegreeFahrenheit, 4) + " Btu/(h ft² °F)",
        (HeatTransferCoefficient h, _) => Number(way, h.WattsPerSquareMeterKelvin, 3) + " W/(m² K)",
        (SpecificEntropy c, DisplayUnits.Us) => Number(way, c.BtusPerPoundFahrenheit, 3) + " Btu/(lb °F)",
        (SpecificEntropy c, _) => Number(way, c.JoulesPerKilogramKelvin, 0) + " J/(kg K)",
        (SpecificEnergy q, DisplayUnits.Us) => Number(way, q.BtuPerPound, 1) + " Btu/lb",
        (SpecificEnergy q, _) => Number(way, q.KilojoulesPerKilogram, 1) + " kJ/kg",
        (Power heat, DisplayUnits.Us) => Number(way, (double)heat.BritishThermalUnitsPerHour, 1) + " Btu/h",
        (Power heat, _) => Number(way, (double)heat.Watts, 1) + " W",
        (MassFlux flux, _) => Significant(way, flux.GramsPerHourPerSquareMeter) + " g/(m² h)",
        (AreaDensity held, _) => held.KilogramsPerSquareMeter < 1 ? Number(way, held.GramsPerSquareMeter, 1) + " g/m²" : Number(way, held.KilogramsPerSquareMeter, 2) + " kg/m²",
        (MolarMass molar, _) => Number(way, molar.GramsPerMole, 2) + " g/mol",
        (Scalar factor, _) => Significant(way, factor.Amount),
        _ => quantity.ToString("s4", Culture),
    };

    private static string UsLength(Rounding way, Length length) => Math.Abs(length.Feet) >= 6 ? Number(way, length.Feet, 1) + " ft" : Number(way, length.Inches, length.Inches < 1 ? 3 : 2) + " in";

    private static string SiLength(Rounding way, Length length) => Math.Abs(length.Meters) >= 2 ? Number(way, length.Meters, 2) + " m" : Number(way, length.Millimeters, 1) + " mm";

    private static string UsPressure(Rounding way, Pressure pressure) =>
        Math.Abs(pressure.PoundsForcePerSquareInch) >= 0.1 ? Number(way, pressure.PoundsForcePerSquareInch, 2) + " psi" : Number(way, pressure.InchesOfWaterColumn, 3) + " in w.c.";

    private static string Time(Rounding way, Duration time)
    {
        if (Math.Abs(time.Seconds) < 120)
        {
            return Number(way, time.Seconds, 1) + " s";
        }

        if (time.Minutes < 120)
        {
            return Number(way, time.Minutes, 1) + " min";
        }

        return time.Hours <= 72 ? Number(way, time.Hours, 1) + " h" : Number(way, time.Days, 1) + " days";
    }

    // Three digits that count below one: a limit of 0.0006 must not read 0.001.
    private static string Significant(Rounding way, double value) => Math.Abs(value) switch
    {
        0 => "0",
        >= 1 => Number(way, value, 3),
        >= 1e-6 and var small => Number(way, value, 2 - (int)Math.Floor(Math.Log10(small))),
        _ => value.ToString("G3", Culture),
    };

    private static string Number(Rounding way, double value, int decimals)
    {
        // What was worked out in other units must not be taken up or down by what binary fractions lose.
        var (lost, digits) = (Math.Abs(value) * 1e-9, Math.Min(decimals + way.More, MostDigits));
        var rounded = Math.Round(way.To switch { MidpointRounding.ToPositiveInfinity => value - lost, MidpointRounding.ToNegativeInfinity => value + lost, _ => value }, digits, way.To);
        return (rounded == 0 ? 0 : rounded).ToString("0." + new string('#', digits), Culture);
    }

    private static bool IsAbove(string low, string high) =>
        low.Split(' ', 2) is var least && high.Split(' ', 2) is var most && least.Skip(1).SequenceEqual(most.Skip(1)) && double.Parse(least[0], Culture) > double.Parse(most[0], Culture);

    // To which side, and how many digits more than usual.
    private readonly record struct Rounding(MidpointRounding To, int More = 0);
}
