using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.day-has-time: an area's passes, the waits between them and the time for which its fans run on fit into the planned shift;
/// else it says how many days they take. Fans that somebody is named to watch need not fit. The longer times before people come
/// back are for air.trades-reentry-long-enough and air.occupants-return-long-enough.
/// </summary>
public sealed class DayHasTime : Requirement<AreaFacts>
{
    private readonly Duration _roundTo;

    /// <summary>The requirement as the rule sets state it.</summary>
    public DayHasTime(RequirementSpec spec)
        : base(spec) => _roundTo = Need("round-to").As<Duration>();

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.HasSpraying ? null : "no-spraying";

    /// <summary>The days of an area, or why they cannot be worked out.</summary>
    internal Derived<SprayDays> DaysOf(AreaFacts area) => SprayDays.Of(area, _roundTo);

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (TooLong(bearer) is { } tooLong)
        {
            return tooLong;
        }

        var days = DaysOf(bearer);
        if (days.Gap is { } gap)
        {
            return gap;
        }

        var verdict = Judge(days.Value, bearer).Worked(days.Steps);
        return verdict.On(bearer.Area, nameof(WorkArea.ShiftStartsAt), Measure.OfInstant(bearer.Area.ShiftStartsAt!.Value))
            .On(bearer.Area, nameof(WorkArea.ShiftEndsAt), Measure.OfInstant(bearer.Area.ShiftEndsAt!.Value));
    }

    private static Verdict Judge(SprayDays days, AreaFacts bearer)
    {
        if (days.Needed > days.Planned)
        {
            return (Verdict.NotMet() with { Value = Measure.OfCount(days.Needed) }).With("planned", days.Planned);
        }

        var late = days.Shifts.SelectMany(shift => shift.Clearances).Where(clearance => clearance.AfterShift).ToList();
        return late.Count == 0 ? Verdict.Met() : Verdict.NotMet("fans")
            .With("until", SiteClock.At(late[0].Cleared, bearer.Job.Plan.TimeZone))
            .With("last", SiteClock.At(late[0].ClockStarts, bearer.Job.Plan.TimeZone));
    }

    // A pass is not broken off and taken up again: one that is longer than the shift fits into no day.
    private static Verdict? TooLong(AreaFacts bearer)
    {
        if (bearer.Area is not { ShiftStartsAt: { } start, ShiftEndsAt: { } end } || end <= start)
        {
            return null;
        }

        var shift = Duration.FromSeconds((end - start).TotalSeconds);
        var longest = bearer.Work.OfType<SprayFacts>().Where(work => work.Spray.TimePerPass > shift).MaxBy(work => work.Spray.TimePerPass!.Value.Seconds);
        return longest is null ? null : (Verdict.NotMet("longer-than-shift") with { Value = Measure.Of(longest.Spray.TimePerPass!.Value) })
            .With("work", longest.Item.Id).With("shift", shift).On(longest.Spray, nameof(SprayApplication.TimePerPass), longest.Spray.TimePerPass.Value);
    }
}
