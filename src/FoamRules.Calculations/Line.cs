using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>Short ways to write a worked step.</summary>
internal static class Line
{
    public static WorkedStep Of(string name, string formula, IQuantity result, string source, params ReadOnlySpan<Term> inputs) =>
        new(name, formula, [.. inputs], Measure.Of(result), source);

    public static WorkedStep Of(string name, string formula, Measure result, string source, params ReadOnlySpan<Term> inputs) =>
        new(name, formula, [.. inputs], result, source);

    public static Term In(string symbol, string meaning, IQuantity value) => new(symbol, meaning, Measure.Of(value));

    public static Term In(string symbol, string meaning, double value) => new(symbol, meaning, Gate.Shown(value));

    public static Term In(string symbol, string meaning, int value) => new(symbol, meaning, Measure.OfCount(value));
}
