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
                yield return ($"without {word}", one => one with { Words = one.Words.Remove(word), Value = Measure.OfText(string.Join(", ", one.Words.Remove(word))) });
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
        else if (Loosest(limit) is { } loosest)
        {
            var values = held.Select(value => value.Quantity).OfType<IQuantity>().Where(value => value.QuantityInfo.Name == loosest.QuantityInfo.Name).ToList();
            var isUpper = limit.Tighter == Tighter.Lower;
            // On the limit is met: moved down past the highest value below it or on it, and up past the lowest above it.
            var below = values.Where(value => isUpper ? Quantities.Compare(value, loosest) <= 0 : Quantities.Compare(value, loosest) < 0).MaxBy(Quantities.InBase);
            var above = values.Where(value => isUpper ? Quantities.Compare(value, loosest) > 0 : Quantities.Compare(value, loosest) >= 0).MinBy(Quantities.InBase);
            var (down, up) = (Moved(loosest, below, -1), Moved(loosest, above, 1));
            yield return ("lower", one => At(one, loosest, down));
            yield return ("higher", one => At(one, loosest, up));
        }
    }

    // Where a source prints two figures either satisfies.
    private static IQuantity? Loosest(Limit limit) =>
        limit is { Value.Quantity: { } value, Or.Quantity: { } or } && (Quantities.Compare(or, value) > 0) == (limit.Tighter == Tighter.Lower) ? or : limit.Value.Quantity;

    private static double Moved(IQuantity limit, IQuantity? past, int way)
    {
        var at = (double)limit.Value;
        if (past is not null)
        {
            var value = past.As(limit.Unit);
            return value + (way * Math.Max(Math.Abs(value) * Past, 1e-6));
        }

        // Scales that do not start at nothing: by a step that a person would notice.
        return limit switch
        {
            Temperature => at + (way * 15),
            UnitsNet.Level => at + (way * 1.5),
            _ => at == 0 ? way : way > 0 ? at * 1.5 : at / 1.5,
        };
    }

    // Both figures move by as much.
    private static Limit At(Limit limit, IQuantity was, double now)
    {
        return limit with { Value = Shifted(limit.Value), Or = limit.Or is { } other ? Shifted(other) : null };

        Measure Shifted(Measure figure)
        {
            var quantity = figure.Quantity!;
            return Measure.Of(Quantity.From((double)quantity.Value + (Quantity.From(now, was.Unit).As(quantity.Unit) - was.As(quantity.Unit)), quantity.Unit));
        }
    }
}
