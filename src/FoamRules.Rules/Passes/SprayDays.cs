using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Air;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>One pass on the clock of its area.</summary>
/// <param name="Work">The work.</param>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Day">The planned day, from 1.</param>
/// <param name="Time">How long it takes.</param>
/// <param name="WaitBefore">The wait after the pass before it; zero for the first.</param>
internal sealed record PassStep(SprayFacts Work, int Number, int Day, Duration Time, Duration WaitBefore)
{
    /// <summary>Its name on the timetable.</summary>
    public string Id => $"pass {Number} ({Work.Item.Id})";
}

/// <summary>
/// The days of an area's spraying: its passes with their waits in the shift, and how long the fans run on. One crew does one pass
/// at a time: first passes of all work, then second passes. A wait over night is not counted.
/// </summary>
/// <param name="Passes">The passes, in the order in which they are sprayed.</param>
/// <param name="Shifts">The timetable of each planned day, in order.</param>
internal sealed record SprayDays(ImmutableArray<PassStep> Passes, ImmutableArray<DayTimetable> Shifts)
{
    /// <summary>How many days are planned.</summary>
    public int Planned => Shifts.Length;

    /// <summary>How many shifts the passes and waits take.</summary>
    public int Needed => Shifts.Sum(shift => shift.Days);

    /// <summary>The days of an area, or why they cannot be worked out.</summary>
    /// <param name="area">The area.</param>
    /// <param name="roundTo">Waits are rounded up to whole multiples of this.</param>
    public static Derived<SprayDays> Of(AreaFacts area, Duration roundTo)
    {
        var passes = area.Work.OfType<SprayFacts>().Select(PassesOf).ToList();
        var fans = FansOf(area);
        if (Gaps.Of([.. ShiftGaps(area), .. passes.Select(work => work.Gap), fans.Gap]) is { } gap)
        {
            return Derived<SprayDays>.Without(gap);
        }

        var (start, end) = (SiteClock.Local(area.Area.ShiftStartsAt!.Value, area.Job.Plan.TimeZone), SiteClock.Local(area.Area.ShiftEndsAt!.Value, area.Job.Plan.TimeZone));
        if (end <= start || end - start >= TimeSpan.FromDays(1))
        {
            return Derived<SprayDays>.Without(Verdict.OutOfRange(new Refusal("the shift", Measure.Of(Duration.FromSeconds((end - start).TotalSeconds)), "a shift that ends within a day of its start", "it is worked each day")));
        }

        var order = passes.SelectMany(work => work.Value).OrderBy(pass => pass.Number).ThenBy(pass => pass.Work.Item.Id, StringComparer.Ordinal).ToImmutableArray();
        var shifts = ImmutableArray.CreateBuilder<DayTimetable>();
        var steps = ImmutableArray.CreateBuilder<WorkedStep>();
        var past = 0;
        foreach (var day in order.GroupBy(pass => pass.Day).OrderBy(day => day.Key))
        {
            var shift = new DayShift(area.Job.Plan.TimeZone!, DateOnly.FromDateTime(start.DateTime).AddDays(past), TimeOnly.FromDateTime(start.DateTime), TimeOnly.FromDateTime(end.DateTime));
            var timetable = Day.Plan(shift, [.. past == 0 ? SetUp(area, start, end) : [], .. StepsOf([.. day], area)], fans.Value is { } wait ? [new AirClearance(area.Area.Id, "fans run on", wait)] : [], roundTo);
            if (!timetable.HasValue)
            {
                return Derived<SprayDays>.Without(Verdict.OutOfRange(timetable.Refusal!));
            }

            shifts.Add(timetable.Value);
            steps.AddRange(timetable.Steps);
            past += timetable.Value.Days;
        }

        return Derived<SprayDays>.Of(new SprayDays(order, shifts.ToImmutable()), steps.ToImmutable());
    }

    /// <summary>The passes of a piece of work as planned; where only the thickness is known, the fewest that the sheet allows.</summary>
    public static Derived<ImmutableArray<PassStep>> PassesOf(SprayFacts work)
    {
        var (spray, sheet) = (work.Spray, work.Sheet);
        var time = spray.TimePerPass is null ? Verdict.Missing(spray, nameof(SprayApplication.TimePerPass)) : null;
        if (spray.Passes.IsEmpty)
        {
            return spray.Thickness is { } thickness && sheet.MaxPassThickness is { } most && most > Length.Zero
                ? Proposed(work, Math.Min(PassSum.EqualParts(thickness, most), 100), time)
                : Derived<ImmutableArray<PassStep>>.Without(Gaps.Of(Verdict.Missing(spray, nameof(SprayApplication.Passes)), time)!);
        }

        var unknown = spray.Passes.Skip(1).Where(pass => (pass.WaitBefore ?? sheet.WaitBetweenPasses) is null).Select(pass => Verdict.Missing(pass, nameof(Pass.WaitBefore)));
        return Gaps.Of([time, .. unknown]) is { } gap
            ? Derived<ImmutableArray<PassStep>>.Without(gap)
            : Derived<ImmutableArray<PassStep>>.Of([.. spray.Passes.Select((pass, index) => new PassStep(
                work, index + 1, pass.Day ?? 1, spray.TimePerPass!.Value, index == 0 ? Duration.Zero : (pass.WaitBefore ?? sheet.WaitBetweenPasses)!.Value))]);
    }

    private static Derived<ImmutableArray<PassStep>> Proposed(SprayFacts work, int count, Verdict? time)
    {
        var wait = work.Sheet.WaitBetweenPasses;
        return Gaps.Of(time, wait is null && count > 1 ? Verdict.Missing(work.Sheet, nameof(Product.WaitBetweenPasses)) : null) is { } gap
            ? Derived<ImmutableArray<PassStep>>.Without(gap)
            : Derived<ImmutableArray<PassStep>>.Of([.. Enumerable.Range(1, count).Select(number => new PassStep(
                work, number, 1, work.Spray.TimePerPass!.Value, number == 1 ? Duration.Zero : wait!.Value))]);
    }

    private static IEnumerable<Verdict?> ShiftGaps(AreaFacts area) =>
    [
        area.Area.ShiftStartsAt is null ? Verdict.Missing(area.Area, nameof(WorkArea.ShiftStartsAt)) : null,
        area.Area.ShiftEndsAt is null ? Verdict.Missing(area.Area, nameof(WorkArea.ShiftEndsAt)) : null,
        area.Job.Plan.TimeZone is null ? Verdict.Missing(area.Job.Plan, nameof(Plan.TimeZone)) : null,
    ];

    // The fans need nobody of the crew where somebody is named who watches them, and in the open there are none.
    private static Derived<Duration?> FansOf(AreaFacts area)
    {
        if (AreaAir.IsInTheOpen(area) || area.Area.Ventilation is { RunOnConfirmed: true })
        {
            return Derived<Duration?>.Of(null);
        }

        return area.Area.Ventilation is not { } ventilation ? Derived<Duration?>.Missing(area.Area, nameof(WorkArea.Ventilation))
            : ventilation.RunsOnFor is { } wait ? Derived<Duration?>.Of(wait)
            : Derived<Duration?>.Missing(ventilation, nameof(Ventilation.RunsOnFor));
    }

    // Up to the first foam the crew sets up.
    private static ImmutableArray<DayStep> SetUp(AreaFacts area, DateTimeOffset start, DateTimeOffset end) =>
        area.Area.FirstSprayAt is { } first && first > start && first < end
            ? [new DayStep("set-up", DayStepKind.Other, Duration.FromSeconds((first - start).TotalSeconds))]
            : [];

    private static IEnumerable<DayStep> StepsOf(ImmutableArray<PassStep> passes, AreaFacts area) => passes.Select(pass =>
    {
        var before = passes.FirstOrDefault(other => other.Work == pass.Work && other.Number == pass.Number - 1);
        return new DayStep(pass.Id, DayStepKind.Pass, pass.Time, area.Area.Id, before is null ? [] : [new DayGap(before.Id, pass.WaitBefore)]);
    });
}
