using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Remedies.Proposing;

/// <summary>
/// The figures that people use: a thickness in eighths of an inch, a wait in five minutes. The steps stand with the shared values of
/// the rule sets under <c>remedy-steps</c>, a coarse and a fine one for each unit.
/// </summary>
internal sealed class Figures(RuleBook book)
{
    private const string Group = "remedy-steps";
    private const int Decimals = 9;

    /// <summary>The steps of a unit, the coarse one first; none where the rule sets give none.</summary>
    /// <param name="unit">The contract's name of the unit.</param>
    /// <param name="numberOf">The number of a quantity in that unit; null where it is of another kind.</param>
    public IEnumerable<double> Steps(string unit, Func<IQuantity, double?> numberOf) =>
        from grain in new[] { "coarse", "fine" }
        where book.Parameters.ContainsKey($"{Group}.{unit}.{grain}")
        let step = numberOf(book.Parameters[$"{Group}.{unit}.{grain}"].Value.Quantity!)
        where step > 0
        select step.Value;

    /// <summary>The step of clock times.</summary>
    public TimeSpan ClockStep => book.Parameters[$"{Group}.clock"].As<Duration>().ToTimeSpan();

    /// <summary>Up to the next step; a number that is a step already stays.</summary>
    public static double Up(double number, double step) => Math.Round(Math.Ceiling(Math.Round(number / step, Decimals)) * step, Decimals);

    /// <summary>Down to the next step.</summary>
    public static double Down(double number, double step) => Math.Round(Math.Floor(Math.Round(number / step, Decimals)) * step, Decimals);

    /// <summary>A length as a person would write it in a plan: up to the next coarse step of inches or millimeters.</summary>
    public Contracts.V1.Length Up(Length length, bool inches, string grain = "coarse")
    {
        var step = book.Parameters[$"{Group}.{(inches ? "inches" : "millimeters")}.{grain}"].As<Length>();
        return inches ? new() { Inches = Up(length.Inches, step.Inches) } : new() { Millimeters = Up(length.Millimeters, step.Millimeters) };
    }

    /// <summary>A length down to the next fine step.</summary>
    public Contracts.V1.Length Down(Length length, bool inches)
    {
        var step = book.Parameters[$"{Group}.{(inches ? "inches" : "millimeters")}.fine"].As<Length>();
        return inches ? new() { Inches = Down(length.Inches, step.Inches) } : new() { Millimeters = Down(length.Millimeters, step.Millimeters) };
    }
}
