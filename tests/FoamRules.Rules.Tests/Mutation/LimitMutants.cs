using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>
/// Limits moved either way. Where the cases hold values against a limit, it is moved just past the nearest of them; where they do
/// not, because it only enters a calculation, it is moved by half of itself.
/// </summary>
internal static class LimitMutants
{
    private const double Past = 1e-4;

    /// <summary>The limit moved up and down, or without one of its words.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="held">The values that the cases hold against it.</param>
    public static IEnumerable<(string Name, Func<Limit, Limit> Move)> Of(Limit limit, IReadOnlyList<Measure> held)
    {
        if (!limit.Words.IsEmpty)
        {
            foreach (var word in limit.Words)
            {
                yield return ($"without {word}", one => one with { Words = one.Words.Remove(word) });
            }
        }
        else if (limit.Value.Count is { } count)
        {
            yield return ("one more", one => one with { Value = Measure.OfCount(count + 1) });
            yield return ("one less", one => one with { Value = Measure.OfCount(count - 1) });
        }
        else if (limit.Value.Date is { } date)
        {
            yield return ("a day later", one => one with { Value = Measure.OfDate(date.AddDays(1)) });
            yield return ("a day earlier", one => one with { Value = Measure.OfDate(date.AddDays(-1)) });
        }
        else if (limit.Value.Quantity is { } quantity)
        {
            var values = held.Select(value => value.Quantity).OfType<IQuantity>().Where(value => value.QuantityInfo.Name == quantity.QuantityInfo.Name).ToList();
            var isUpper = limit.Tighter == Tighter.Lower;
            // On the limit is met: moved down past the highest value below it or on it, and up past the lowest above it.
            var below = values.Where(value => isUpper ? Quantities.Compare(value, quantity) <= 0 : Quantities.Compare(value, quantity) < 0).MaxBy(Quantities.InBase);
            var above = values.Where(value => isUpper ? Quantities.Compare(value, quantity) > 0 : Quantities.Compare(value, quantity) >= 0).MinBy(Quantities.InBase);
            var (down, up) = (Moved(quantity, below, -1), Moved(quantity, above, 1));
            yield return ("lower", one => At(one, quantity, down));
            yield return ("higher", one => At(one, quantity, up));
        }
    }

    private static double Moved(IQuantity limit, IQuantity? past, int way)
    {
        var at = (double)limit.Value;
        if (past is not null)
        {
            var value = past.As(limit.Unit);
            return value + (way * Math.Max(Math.Abs(value) * Past, 1e-6));
        }

        // Scales that do not start at nothing: by a step that a person would notice.
        return limit is Temperature or UnitsNet.Level ? at + (way * 15) : way > 0 ? at * 1.5 : at / 1.5;
    }

    // An alternative figure of the same source moves along: either satisfies.
    private static Limit At(Limit limit, IQuantity was, double now)
    {
        var alternative = limit.Or?.Quantity is { } other
            ? Measure.Of(Quantity.From((double)other.Value + (Quantity.From(now, was.Unit).As(other.Unit) - was.As(other.Unit)), other.Unit))
            : limit.Or;
        return limit with { Value = Measure.Of(Quantity.From(now, was.Unit)), Or = alternative };
    }
}
