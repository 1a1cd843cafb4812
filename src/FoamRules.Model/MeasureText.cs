using System.Globalization;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Model;

/// <summary>Values as people read them: rounded, with their unit, in US customary or SI units. The report keeps the unrounded value.</summary>
public static class MeasureText
{
    private static readonly CultureInfo Culture = CultureInfo.InvariantCulture;

    /// <summary>A value with its unit.</summary>
    /// <param name="measure">The value.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers; null: as English does.</param>
    public static string Show(Measure measure, DisplayUnits units, NumberStyle? style = null) => measure switch
    {
        { Quantity: { } quantity } => Show(quantity, units, style ?? NumberStyle.English),
        { Count: { } count } => count.ToString(Culture),
        { Date: { } date } => date.ToString("yyyy-MM-dd", Culture),
        { Instant: { } at } => at.ToString("yyyy-MM-dd HH:mm zzz", Culture),
        _ => measure.Text ?? "",
    };

    /// <summary>Why a calculation was refused, in a sentence that names the range.</summary>
    /// <param name="refusal">The refusal.</param>
    /// <param name="units">The unit system of the value found; the range stands as the calculation names it.</param>
    public static string Show(Refusal refusal, DisplayUnits units) =>
        $"{refusal.Input}: found {Show(refusal.Found, units)}; allowed: {refusal.Allowed}; {refusal.Why}";

    /// <summary>A quantity with its unit.</summary>
    /// <param name="quantity">The quantity.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers.</param>
    public static string Show(IQuantity quantity, DisplayUnits units, NumberStyle style) => style.Of(Show(quantity, units));

    /// <summary>A quantity with its unit, in English.</summary>
    /// <param name="quantity">The quantity.</param>
    /// <param name="units">The unit system.</param>
    public static string Show(IQuantity quantity, DisplayUnits units) => (quantity, units) switch
    {
        (Length length, DisplayUnits.Us) => UsLength(length),
        (Length length, _) => SiLength(length),
        (Temperature t, DisplayUnits.Us) => Number(t.DegreesFahrenheit, 1) + " °F",
        (Temperature t, _) => Number(t.DegreesCelsius, 1) + " °C",
        (TemperatureDelta d, DisplayUnits.Us) => Number(d.DegreesFahrenheit, 1) + " F°",
        (TemperatureDelta d, _) => Number(d.Kelvins, 1) + " K",
        (Duration time, _) => Time(time),
        (Area area, DisplayUnits.Us) => area.SquareFeet < 1 ? Number(area.SquareInches, 2) + " in²" : Number(area.SquareFeet, 1) + " ft²",
        (Area area, _) => area.SquareMeters < 0.1 ? Number(area.SquareMillimeters, 0) + " mm²" : Number(area.SquareMeters, 2) + " m²",
        (Volume volume, DisplayUnits.Us) => Number(volume.CubicFeet, 2) + " ft³",
        (Volume volume, _) => volume.CubicMeters >= 1 ? Number(volume.CubicMeters, 2) + " m³" : Number(volume.Liters, 1) + " L",
        (Mass mass, DisplayUnits.Us) => Number(mass.Pounds, 2) + " lb",
        (Mass mass, _) => mass.Kilograms < 0.1 ? Number(mass.Grams, 0) + " g" : Number(mass.Kilograms, 2) + " kg",
        (Density density, DisplayUnits.Us) => Number(density.PoundsPerCubicFoot, 2) + " lb/ft³",
        (Density density, _) => Number(density.KilogramsPerCubicMeter, 1) + " kg/m³",
        (RelativeHumidity humidity, _) => Number(humidity.Percent, 1) + " %",
        (Ratio ratio, _) => Number(ratio.Percent, 1) + " %",
        (Speed speed, DisplayUnits.Us) => Number(speed.MilesPerHour, 1) + " mph",
        (Speed speed, _) => Number(speed.MetersPerSecond, 1) + " m/s",
        (Pressure pressure, DisplayUnits.Us) => UsPressure(pressure),
        (Pressure pressure, _) => Math.Abs(pressure.Pascals) >= 1000 ? Number(pressure.Kilopascals, 2) + " kPa" : Number(pressure.Pascals, 1) + " Pa",
        (VolumeFlow flow, DisplayUnits.Us) when Math.Abs(flow.CubicFeetPerMinute) < 1 => Number(flow.UsGallonsPerMinute, 2) + " gal/min",
        (VolumeFlow flow, DisplayUnits.Us) => Number(flow.CubicFeetPerMinute, 1) + " ft³/min",
        (VolumeFlow flow, _) when Math.Abs(flow.LitersPerSecond) < 0.1 => Number(flow.LitersPerMinute, 2) + " L/min",
        (VolumeFlow flow, _) => flow.LitersPerSecond >= 100 ? Number(flow.CubicMetersPerHour, 0) + " m³/h" : Number(flow.LitersPerSecond, 2) + " L/s",
        (MassFlow flow, DisplayUnits.Us) => Number(flow.PoundsPerMinute, 2) + " lb/min",
        (MassFlow flow, _) => Number(flow.GramsPerSecond, 1) + " g/s",
        (VolumeConcentration level, _) => level.PartsPerMillion < 0.001 ? Significant(level.PartsPerBillion) + " ppb" : Significant(level.PartsPerMillion) + " ppm",
        (MassConcentration level, _) => Significant(level.MilligramsPerCubicMeter) + " mg/m³",
        (Frequency rate, _) => Number(rate.CyclesPerHour, 2) + " per hour",
        (Illuminance light, DisplayUnits.Us) => Number(FootCandles.In(light), 1) + " foot-candles",
        (Illuminance light, _) => Number(light.Lux, 0) + " lx",
        (Irradiation heat, DisplayUnits.Us) => Number(heat.BtusPerSquareFoot, 0) + " Btu/ft²",
        (Irradiation heat, _) => Number(heat.As(IrradiationUnit.KilojoulePerSquareMeter) / 1000, 2) + " MJ/m²",
        (Level level, _) => Number(level.Decibels, 1) + " dBA",
        (ElectricPotential voltage, _) => voltage.Kilovolts >= 1 ? Number(voltage.Kilovolts, 1) + " kV" : Number(voltage.Volts, 0) + " V",
        (Force force, DisplayUnits.Us) => Number(force.PoundsForce, 0) + " lbf",
        (Force force, _) => force.Kilonewtons >= 1 ? Number(force.Kilonewtons, 2) + " kN" : Number(force.Newtons, 0) + " N",
        (ThermalConductivity k, DisplayUnits.Us) => Number(k.BtusPerHourFootFahrenheit, 4) + " Btu/(h ft °F)",
        (ThermalConductivity k, _) => Number(k.WattsPerMeterKelvin, 4) + " W/(m K)",
        (ThermalResistance r, DisplayUnits.Us) => Number(r.HourSquareFeetDegreesFahrenheitPerBtu, 2) + " h ft² °F/Btu",
        (ThermalResistance r, _) => Number(r.SquareMeterKelvinsPerWatt, 3) + " m² K/W",
        (HeatTransferCoefficient h, DisplayUnits.Us) => Number(h.BtusPerHourSquareFootDegreeFahrenheit, 4) + " Btu/(h ft² °F)",
        (HeatTransferCoefficient h, _) => Number(h.WattsPerSquareMeterKelvin, 3) + " W/(m² K)",
        (SpecificEntropy c, DisplayUnits.Us) => Number(c.BtusPerPoundFahrenheit, 3) + " Btu/(lb °F)",
        (SpecificEntropy c, _) => Number(c.JoulesPerKilogramKelvin, 0) + " J/(kg K)",
        (SpecificEnergy q, DisplayUnits.Us) => Number(q.BtuPerPound, 1) + " Btu/lb",
        (SpecificEnergy q, _) => Number(q.KilojoulesPerKilogram, 1) + " kJ/kg",
        (Power heat, DisplayUnits.Us) => Number((double)heat.BritishThermalUnitsPerHour, 1) + " Btu/h",
        (Power heat, _) => Number((double)heat.Watts, 1) + " W",
        (MassFlux flux, _) => Significant(flux.GramsPerHourPerSquareMeter) + " g/(m² h)",
        (AreaDensity held, _) => held.KilogramsPerSquareMeter < 1 ? Number(held.GramsPerSquareMeter, 1) + " g/m²" : Number(held.KilogramsPerSquareMeter, 2) + " kg/m²",
        (MolarMass molar, _) => Number(molar.GramsPerMole, 2) + " g/mol",
        (Scalar factor, _) => Significant(factor.Amount),
        _ => quantity.ToString("s4", Culture),
    };

    private static string UsLength(Length length) => Math.Abs(length.Feet) >= 6 ? Number(length.Feet, 1) + " ft" : Number(length.Inches, length.Inches < 1 ? 3 : 2) + " in";

    private static string SiLength(Length length) => Math.Abs(length.Meters) >= 2 ? Number(length.Meters, 2) + " m" : Number(length.Millimeters, 1) + " mm";

    private static string UsPressure(Pressure pressure) =>
        Math.Abs(pressure.PoundsForcePerSquareInch) >= 0.1 ? Number(pressure.PoundsForcePerSquareInch, 2) + " psi" : Number(pressure.InchesOfWaterColumn, 3) + " in w.c.";

    private static string Time(Duration time)
    {
        if (Math.Abs(time.Seconds) < 120)
        {
            return Number(time.Seconds, 1) + " s";
        }

        if (time.Minutes < 120)
        {
            return Number(time.Minutes, 1) + " min";
        }

        return time.Hours <= 72 ? Number(time.Hours, 1) + " h" : Number(time.Days, 1) + " days";
    }

    // Three digits that count below one: a limit of 0.0006 must not read 0.001.
    private static string Significant(double value) => Math.Abs(value) switch
    {
        0 => "0",
        >= 1 => value.ToString("0.###", Culture),
        >= 1e-6 and var small => Number(value, 2 - (int)Math.Floor(Math.Log10(small))),
        _ => value.ToString("G3", Culture),
    };

    private static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals, MidpointRounding.AwayFromZero);
        return (rounded == 0 ? 0 : rounded).ToString("0." + new string('#', decimals), Culture);
    }
}
