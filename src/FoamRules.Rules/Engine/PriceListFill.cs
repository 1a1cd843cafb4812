using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Engine;

/// <summary>Quantities of cavity fill: the holes to drill and to make good, the test shots, the time for pouring.</summary>
internal static class PriceListFill
{
    public static IEnumerable<KeyValuePair<string, PriceQuantityKind>> Kinds =>
    [
        PriceQuantityKind.For<FillFacts>("fill-holes", (_, fill) => Holes(fill, (fill.Fill.FillHoles, nameof(CavityFill.FillHoles)))),
        PriceQuantityKind.For<FillFacts>("vent-holes", VentHoles, "planned", "least"),
        PriceQuantityKind.For<FillFacts>("all-holes", (_, fill) => Holes(fill, (fill.Fill.FillHoles, nameof(CavityFill.FillHoles)), (fill.Fill.VentHoles, nameof(CavityFill.VentHoles)))),
        PriceQuantityKind.For<FillFacts>("test-shots", TestShots, "asked", "planned"),
        PriceQuantityKind.For<FillFacts>("pouring-time", PouringTime),
    ];

    // Drilled holes: an open joint of which the area is given is no hole.
    private static PriceQuantity Holes(FillFacts facts, params ImmutableArray<(HoleList? List, string Property)> lists)
    {
        var open = lists.Where(list => list.List is null).Select(list => new FieldRef(facts.Fill, list.Property)).ToList();
        if (facts.Fill.Count is not { } count)
        {
            return PriceQuantity.Unknown([new FieldRef(facts.Fill, nameof(CavityFill.Count)), .. open]);
        }

        var each = lists.Sum(list => list.List?.Holes.Count(hole => hole is not { Diameter: null, OpenArea: not null }) ?? 0);
        return each == 0 && open.Count > 0 ? PriceQuantity.Unknown(open)
            : PriceQuantity.Of((long)each * count).With("each", each).With("count", count).WithOpen(open);
    }

    // As many as are planned; where they are not, each compartment needs at least what the requirement asks for.
    private static PriceQuantity VentHoles(PriceInputs inputs, FillFacts facts)
    {
        var fill = facts.Fill;
        if (fill.VentHoles is not null || fill.Count is not { } count)
        {
            return Holes(facts, (fill.VentHoles, nameof(CavityFill.VentHoles))) is var planned && planned.Amount is null ? planned : planned.By("planned");
        }

        var each = inputs.Spec.Limits["openings"].Count * Math.Max(1, fill.Compartments.Length);
        return PriceQuantity.Of(each * count).By("least").With("each", each).With("count", count).WithOpen(new FieldRef(fill, nameof(CavityFill.VentHoles)));
    }

    private static PriceQuantity TestShots(PriceInputs inputs, FillFacts facts)
    {
        var (asked, planned) = (inputs.Spec.Limits["shots"].Count, facts.Fill.TestShots?.Shots.Length ?? 0);
        return planned > asked ? PriceQuantity.Of(planned).By("planned") : PriceQuantity.Of(asked).By("asked") with { AtLeast = true };
    }

    private static PriceQuantity PouringTime(PriceInputs inputs, FillFacts facts)
    {
        var plan = inputs.Network.Numbers.Rotation.Timetable(facts);
        return plan.Gap is { } gap ? PriceQuantity.Unknown(gap)
            : PriceQuantity.Of(plan.Value.Shots[^1].End).Worked(plan.Steps).With("shots", plan.Value.Shots.Length);
    }
}
