using System.Collections.Concurrent;
using System.Reflection;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>Comparing quantities that were given in different units.</summary>
public static class Quantities
{
    private static readonly ConcurrentDictionary<Type, ConstructorInvoker?> Makers = new();

    /// <summary>A quantity of a value in a unit, of whatever kind the unit is. UnitsNet's own way loads all of its kinds.</summary>
    /// <param name="value">The value.</param>
    /// <param name="unit">The unit, such as <c>LengthUnit.Inch</c>.</param>
    public static IQuantity From(double value, Enum unit) =>
        Makers.GetOrAdd(unit.GetType(), MakerOf) is { } make ? (IQuantity)make.Invoke(value, unit) : Quantity.From(value, unit);

    /// <summary>What UnitsNet knows of a kind of quantity, such as <c>Length</c>. Its list of all kinds is not asked: making that takes longer than a check.</summary>
    /// <param name="kind">The kind, by UnitsNet's name.</param>
    /// <exception cref="ArgumentException">UnitsNet has no such kind.</exception>
    public static QuantityInfo InfoOf(string kind) => InfoOf(TypeOf(kind));

    /// <summary>What UnitsNet knows of a type of quantity.</summary>
    public static QuantityInfo InfoOf(Type quantity) => (QuantityInfo)quantity.GetProperty(nameof(Length.Info), BindingFlags.Public | BindingFlags.Static)!.GetValue(null)!;

    /// <summary>
    /// Compares two quantities of one kind. Values that differ by less than one part in a thousand million are equal: that is
    /// rounding in a change of unit, not a difference that anyone can measure.
    /// </summary>
    /// <returns>Negative, zero or positive, like <see cref="IComparable.CompareTo"/>.</returns>
    /// <exception cref="ArgumentException">The quantities are of different kinds.</exception>
    public static int Compare(IQuantity a, IQuantity b)
    {
        if (a.QuantityInfo.Name != b.QuantityInfo.Name)
        {
            throw new ArgumentException($"a {a.QuantityInfo.Name} is not comparable with a {b.QuantityInfo.Name}");
        }

        return CompareInBase(InBase(a), InBase(b));
    }

    /// <summary>Compares two values of one kind that are in its base unit already, as <see cref="Compare"/> does.</summary>
    public static int CompareInBase(double left, double right) =>
        Math.Abs(left - right) <= 1e-9 * Math.Max(Math.Abs(left), Math.Abs(right)) ? 0 : left.CompareTo(right);

    /// <summary>The value in UnitsNet's base unit of the quantity, such as metres, kelvins or seconds.</summary>
    public static double InBase(IQuantity quantity) => quantity.As(quantity.QuantityInfo.BaseUnitInfo.Value);

    /// <summary>How far the first lies above the second, in the first's unit; a difference of temperatures is a temperature difference.</summary>
    public static IQuantity Difference(IQuantity a, IQuantity b) =>
        a is Temperature temperature
            ? TemperatureDelta.FromKelvins(temperature.Kelvins - ((Temperature)b).Kelvins)
            : From((double)a.Value - b.As(a.Unit), a.Unit);

    // Null for the few kinds that are not made of a double.
    private static ConstructorInvoker? MakerOf(Type unit) =>
        TypeOf(unit.Name[..^"Unit".Length]).GetConstructor([typeof(double), unit]) is { } constructor ? ConstructorInvoker.Create(constructor) : null;

    private static Type TypeOf(string kind) => typeof(Length).Assembly.GetType($"{typeof(Length).Namespace}.{kind}") ?? throw new ArgumentException($"UnitsNet has no quantity {kind}", nameof(kind));
}
