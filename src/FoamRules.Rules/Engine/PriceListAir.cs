using FoamRules.Model;
using FoamRules.Rules.Air;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Quantities of the air: the fans, how long they run, how long people stay out, who comes back to clear the area.</summary>
internal static class PriceListAir
{
    private static readonly Duration Day = Duration.FromDays(1);

    public static IEnumerable<KeyValuePair<string, PriceQuantityKind>> Kinds =>
    [
        PriceQuantityKind.For<AreaFacts>("fan-flow", FanFlow, "by-figure", "planned", "no-figure"),
        PriceQuantityKind.For<AreaFacts>("fan-time", FanTime, "whole", "after-only", "never"),
        PriceQuantityKind.For<AreaFacts>("trades-stay-out", (inputs, area) => StayOutTime<TradesReentryLongEnough>(inputs, area), "", "never"),
        PriceQuantityKind.For<AreaFacts>("occupants-stay-out", (inputs, area) => StayOutTime<OccupantsReturnLongEnough>(inputs, area), "", "never"),
        PriceQuantityKind.For<AreaFacts>("clearing-visit", ClearingVisit),
    ];

    private static PriceQuantity FanFlow(PriceInputs inputs, AreaFacts facts)
    {
        var area = facts.Area;
        var planned = area.Ventilation?.ExhaustFlow;
        var changes = Requirement<ExhaustSufficient>(inputs).Figures(facts).Select(figure => figure.As<Frequency>()).OrderByDescending(rate => rate.CyclesPerHour).Cast<Frequency?>().FirstOrDefault();
        if (changes is { } rate && area.AirVolume is { } volume)
        {
            var needed = VolumeFlow.FromCubicMetersPerHour(rate.CyclesPerHour * volume.CubicMeters);
            return planned is { } more && Quantities.Compare(more, needed) > 0 ? PriceQuantity.Of(more).By("planned").With("needed", needed)
                : PriceQuantity.Of(needed).By("by-figure").With("changes", rate).With("volume", volume);
        }

        // Without a figure nobody says how much is enough; without the volume no figure can be turned into a flow.
        FieldRef[] open =
        [
            .. changes is null ? AreaAir.Sheets(facts).Select(sheet => new FieldRef(sheet, nameof(Product.Ventilation))) : [],
            .. area.AirVolume is null ? [new FieldRef(area, nameof(WorkArea.AirVolume))] : Array.Empty<FieldRef>(),
        ];
        return planned is { } flow ? PriceQuantity.Of(flow).By("no-figure").WithOpen(open) : PriceQuantity.Unknown(open);
    }

    private static PriceQuantity FanTime(PriceInputs inputs, AreaFacts facts)
    {
        var area = facts.Area;
        var after = After(Requirement<VentilationGoesOn>(inputs), facts, area.Ventilation?.RunsOnFor);
        if (after.Amount?.Quantity is not Duration wait)
        {
            return after;
        }

        return area is { FirstSprayAt: { } first, LastSprayAt: { } last } && last > first
            ? after with { Amount = Measure.Of(Duration.FromSeconds((last - first).TotalSeconds) + wait), Way = "whole" }
            : (after with { Way = "after-only" }).WithOpen([.. after.Missing, .. Unset(area)]);
    }

    private static PriceQuantity StayOutTime<TReentry>(PriceInputs inputs, AreaFacts facts)
        where TReentry : ReentryRequirement
    {
        var requirement = Requirement<TReentry>(inputs);
        return After(requirement, facts, requirement.PlannedAfter(facts.Area));
    }

    // Somebody comes back to look, to take covers off and signs down, where people may return only after the shift.
    private static PriceQuantity? ClearingVisit(PriceInputs inputs, AreaFacts facts)
    {
        var area = facts.Area;
        var stayOut = StayOutTime<OccupantsReturnLongEnough>(inputs, facts);
        if (stayOut.Amount?.Quantity is not Duration wait)
        {
            return stayOut.Way is null ? stayOut : PriceQuantity.Unknown();
        }

        // A shift ends within a day of its start, so a whole day's wait always ends after it.
        if (wait >= Day)
        {
            return PriceQuantity.Of(1).With("wait", wait);
        }

        if (area is not { LastSprayAt: { } last, ShiftEndsAt: { } end })
        {
            return PriceQuantity.Unknown([
                .. stayOut.Missing,
                .. area.LastSprayAt is null ? [new FieldRef(area, nameof(WorkArea.LastSprayAt))] : Array.Empty<FieldRef>(),
                .. area.ShiftEndsAt is null ? [new FieldRef(area, nameof(WorkArea.ShiftEndsAt))] : Array.Empty<FieldRef>()]);
        }

        var isAfter = SiteClock.After(last, wait).TimeOfDay > end.TimeOfDay || SiteClock.After(last, wait).Date > last.Date;
        return isAfter ? PriceQuantity.Of(1).With("wait", wait) : stayOut.AtLeast ? PriceQuantity.Unknown(stayOut.Missing) : null;
    }

    // The longer of what is needed and what is planned; only the least where not all of it is known.
    private static PriceQuantity After(ClearAirRequirement requirement, AreaFacts facts, Duration? planned)
    {
        var stayOut = requirement.StayOutOf(facts);
        if (stayOut.NeverClearsOf is { } substance)
        {
            return (new PriceQuantity { Way = "never" }).With("substance", substance);
        }

        var needed = stayOut.Longest?.As<Duration>();
        var wait = needed is null || planned > needed ? planned : needed;
        var open = stayOut.IsKnown ? [] : stayOut.Unknown;
        return wait is { } time ? PriceQuantity.Of(time).Worked(stayOut.Steps).With("wait", time).WithOpen(open) with { AtLeast = !stayOut.IsKnown }
            : stayOut.Refusal is { } refusal ? PriceQuantity.Unknown(Verdict.OutOfRange(refusal))
            : PriceQuantity.Unknown(open);
    }

    private static IEnumerable<FieldRef> Unset(WorkArea area)
    {
        if (area.FirstSprayAt is null)
        {
            yield return new FieldRef(area, nameof(WorkArea.FirstSprayAt));
        }

        if (area.LastSprayAt is null)
        {
            yield return new FieldRef(area, nameof(WorkArea.LastSprayAt));
        }
    }

    private static T Requirement<T>(PriceInputs inputs) => inputs.Network.Requirements.OfType<T>().Single();
}
