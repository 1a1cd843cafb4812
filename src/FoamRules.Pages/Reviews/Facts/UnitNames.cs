using FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>Units on forms: which one a crew uses where the plan names none, and the sign of each.</summary>
internal static class UnitNames
{
    private static readonly Dictionary<string, (string Us, string Si)> ByQuantity = new(StringComparer.Ordinal)
    {
        ["Length"] = ("inches", "millimeters"),
        ["Mass"] = ("pounds", "kilograms"),
        ["Temperature"] = ("degrees_fahrenheit", "degrees_celsius"),
        ["Density"] = ("pounds_per_cubic_foot", "kilograms_per_cubic_meter"),
        ["Duration"] = ("minutes", "minutes"),
        ["Ratio"] = ("percent", "percent"),
        ["Speed"] = ("miles_per_hour", "kilometers_per_hour"),
        ["Pressure"] = ("pounds_force_per_square_inch", "kilopascals"),
        ["MassFlow"] = ("pounds_per_minute", "kilograms_per_minute"),
        ["MassConcentration"] = ("milligrams_per_cubic_meter", "milligrams_per_cubic_meter"),
    };

    private static readonly Dictionary<string, string> Signs = new(StringComparer.Ordinal)
    {
        ["inches"] = "in",
        ["feet"] = "ft",
        ["millimeters"] = "mm",
        ["meters"] = "m",
        ["pounds"] = "lb",
        ["kilograms"] = "kg",
        ["grams"] = "g",
        ["degrees_fahrenheit"] = "°F",
        ["degrees_celsius"] = "°C",
        ["pounds_per_cubic_foot"] = "lb/ft³",
        ["kilograms_per_cubic_meter"] = "kg/m³",
        ["seconds"] = "s",
        ["minutes"] = "min",
        ["hours"] = "h",
        ["days"] = "d",
        ["percent"] = "%",
        ["decimal_fractions"] = "× 1",
        ["miles_per_hour"] = "mph",
        ["kilometers_per_hour"] = "km/h",
        ["meters_per_second"] = "m/s",
        ["pounds_force_per_square_inch"] = "psi",
        ["kilopascals"] = "kPa",
        ["pascals"] = "Pa",
        ["inches_of_water_column"] = "inH₂O",
        ["pounds_per_minute"] = "lb/min",
        ["kilograms_per_minute"] = "kg/min",
        ["grams_per_second"] = "g/s",
        ["grams_per_hour"] = "g/h",
        ["milligrams_per_cubic_meter"] = "mg/m³",
        ["micrograms_per_cubic_meter"] = "µg/m³",
    };

    /// <summary>The unit that is asked in, where the plan names none.</summary>
    public static string Usual(string quantity, DisplayUnits units) => units == DisplayUnits.Us ? ByQuantity[quantity].Us : ByQuantity[quantity].Si;

    /// <summary>The sign of a unit.</summary>
    public static string Sign(string unit) => Signs.GetValueOrDefault(unit, unit.Replace('_', ' '));
}
