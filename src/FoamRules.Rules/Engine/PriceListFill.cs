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
        PriceQuantityKind.For<FillFacts>("fill-holes", (_, fill) => FillHoles(fill)),
        PriceQuantityKind.For<FillFacts>("vent-holes", VentHoles, "planned", "least"),
        PriceQuantityKind.For<FillFacts>("all-holes", AllHoles),
        PriceQuantityKind.For<FillFacts>("test-shots", TestShots, "asked", "planned"),
        PriceQuantityKind.For<FillFacts>("pouring-time", PouringTime),
    ];

    private static PriceQuantity FillHoles(FillFacts facts) => Holes(facts, facts.Fill.FillHoles is { } holes ? Drilled(holes) : null, 0, (facts.Fill.FillHoles, nameof(CavityFill.FillHoles)));

    // As many as are planned; where those are too few, or nobody has planned any, each compartment needs what the requirement asks for.
    private static PriceQuantity VentHoles(PriceInputs inputs, FillFacts facts)
    {
        var (planned, least) = Vents(inputs, facts.Fill);
        var quantity = Holes(facts, planned, least, (facts.Fill.VentHoles, nameof(CavityFill.VentHoles)));
        return quantity.Amount is null ? quantity
            : planned >= least ? quantity.By("planned")
            : quantity.By("least") with { AtLeast = true };
    }

    private static PriceQuantity AllHoles(PriceInputs inputs, FillFacts facts)
    {
        var fill = facts.Fill;
        var (planned, least) = Vents(inputs, fill);
        var filled = fill.FillHoles is { } holes ? Drilled(holes) : (long?)null;
        var quantity = Holes(facts, filled + planned, (filled ?? 0) + Math.Max(planned ?? 0, least), (fill.FillHoles, nameof(CavityFill.FillHoles)), (fill.VentHoles, nameof(CavityFill.VentHoles)));
        return planned < least ? quantity with { AtLeast = true } : quantity;
    }

    // What is planned for each cavity, or the least where that is more or nothing is planned.
    private static PriceQuantity Holes(FillFacts facts, long? planned, long least, params ImmutableArray<(HoleList? List, string Property)> lists)
    {
        var open = lists.Where(list => list.List is null).Select(list => new FieldRef(facts.Fill, list.Property)).ToList();
        if (facts.Fill.Count is not { } count)
        {
            return PriceQuantity.Unknown([new FieldRef(facts.Fill, nameof(CavityFill.Count)), .. open]);
        }

        var each = Math.Max(planned ?? 0, least);
        return each == 0 && open.Count > 0 ? PriceQuantity.Unknown(open)
            : PriceQuantity.Of(each * count).With("each", each).With("count", count).WithOpen(open);
    }

    // Vents to drill in each cavity: those planned, and the least that the requirement asks for besides open joints.
    private static (long? Planned, long Least) Vents(PriceInputs inputs, CavityFill fill)
    {
        var openings = inputs.Network.Book.Requirements["vent.air-can-leave"].Limits["openings"].Count * Math.Max(1, fill.Compartments.Length);
        return fill.VentHoles is { } vents ? (Drilled(vents), Math.Max(0, openings - (vents.Holes.Length - Drilled(vents)))) : (null, openings);
    }

    // An open joint of which the area is given is no hole to drill.
    private static long Drilled(HoleList list) => list.Holes.Count(hole => hole is not { Diameter: null, OpenArea: not null });

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
