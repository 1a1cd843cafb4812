using UnitsNet;

namespace FoamRules.Model;

/// <summary>Comparing quantities that were given in different units.</summary>
public static class Quantities
{
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
            : Quantity.From((double)a.Value - b.As(a.Unit), a.Unit);
}
