using System.Collections.Immutable;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class DayTests
{
    private static readonly Duration Minute = Duration.FromMinutes(1);

    private static DayShift Shift(string zone, int year, int month, int day, int from = 7, int to = 16) => new(zone, new DateOnly(year, month, day), new TimeOnly(from, 0), new TimeOnly(to, 0));

    private static DayStep Step(string id, DayStepKind kind, double minutes, string? air = null, params DayGap[] gaps) =>
        new(id, kind, Duration.FromMinutes(minutes), air, [.. gaps]);

    private static DayGap After(string id, double atLeast, double? atMost = null) => new(id, Duration.FromMinutes(atLeast), atMost is { } most ? Duration.FromMinutes(most) : null);

    private static DayTimetable Plan(DayShift shift, ImmutableArray<DayStep> steps, params AirClearance[] clearances)
    {
        var answer = Day.Plan(shift, steps, [.. clearances], Minute);
        Assert.True(answer.HasValue, answer.Refusal?.ToString());
        return answer.Value;
    }

    private static readonly ImmutableArray<DayStep> ByHand =
    [
        Step("set up", DayStepKind.Move, 30),
        Step("pass 1, north", DayStepKind.Pass, 45, "attic"),
        Step("move", DayStepKind.Move, 10),
        Step("pass 1, south", DayStepKind.Pass, 40, "attic"),
        Step("pass 2, north", DayStepKind.Pass, 45, "attic", After("pass 1, north", 34.4)),
        Step("pass 2, south", DayStepKind.Pass, 40, "attic", After("pass 1, south", 34.4)),
        Step("let cool", DayStepKind.Wait, 59.5),
        Step("trim", DayStepKind.Trim, 20, "attic"),
        Step("clear away", DayStepKind.Move, 30),
    ];

    [Fact]
    public void A_day_worked_by_hand_comes_out()
    {
        // 07:00 set up to 07:30; north 07:30 to 08:15; move to 08:25; south to 09:05; second north may start 08:15 + 35 = 08:50, so
        // at 09:05, to 09:50; second south may start 09:05 + 35 = 09:40, so at 09:50, to 10:30; 59.5 min wait is 60: 11:30; trim
        // to 11:50; clear away to 12:20. Purge of 3 h 10 s counts from 11:50 and is rounded up to 3 h 1 min: 14:51.
        var day = Plan(Shift("Europe/Berlin", 2025, 6, 10), ByHand, new AirClearance("attic", "re-entry of trades", Duration.FromSeconds(3 * 3600 + 10)));

        Assert.Equal(
            ["07:00-07:30", "07:30-08:15", "08:15-08:25", "08:25-09:05", "09:05-09:50", "09:50-10:30", "10:30-11:30", "11:30-11:50", "11:50-12:20"],
            day.Steps.Select(entry => $"{entry.Start:HH:mm}-{entry.End:HH:mm}"));
        var cleared = Assert.Single(day.Clearances);
        Assert.Equal(new DateTimeOffset(2025, 6, 10, 11, 50, 0, TimeSpan.FromHours(2)), cleared.ClockStarts);
        Assert.Equal(new DateTimeOffset(2025, 6, 10, 14, 51, 0, TimeSpan.FromHours(2)), cleared.Cleared);
        Assert.True(day.FitsOneShift);
        Assert.Equal(1, day.Days);
        Assert.Empty(day.Missed);
    }

    [Fact]
    public void The_crew_waits_for_a_gap_that_is_not_over()
    {
        var day = Plan(Shift("UTC", 2025, 6, 10), [Step("one", DayStepKind.Pass, 10, "room"), Step("two", DayStepKind.Pass, 10, "room", After("one", 34.4))]);

        Assert.Equal("07:45", $"{day.Steps[1].Start:HH:mm}");
    }

    [Fact]
    public void Rework_starts_the_purge_clock_again()
    {
        var rework = ByHand.Add(Step("rework", DayStepKind.Pass, 5, "attic"));
        var day = Plan(Shift("Europe/Berlin", 2025, 6, 10), rework, new AirClearance("attic", "re-entry", Duration.FromHours(3)), new AirClearance("cellar", "re-entry", Duration.FromHours(3)));

        Assert.Equal("15:25", $"{Assert.Single(day.Clearances).Cleared:HH:mm}");
    }

    [Fact]
    public void A_purge_that_outlasts_the_shift_does_not_fit()
    {
        var day = Plan(Shift("Europe/Berlin", 2025, 6, 10), ByHand, new AirClearance("attic", "re-entry of occupants", Duration.FromHours(24)));

        Assert.False(day.FitsOneShift);
        Assert.Equal(1, day.Days);
        Assert.True(day.Clearances[0].AfterShift);
        Assert.Equal(new DateTimeOffset(2025, 6, 11, 11, 50, 0, TimeSpan.FromHours(2)), day.Clearances[0].Cleared);
    }

    [Fact]
    public void What_does_not_fit_goes_to_the_next_day_and_breaks_a_clearance_that_runs()
    {
        // 4 + 4 h fit in 9; the third goes to the next day at 07:00, 16 h after the second's end at 15:00.
        ImmutableArray<DayStep> steps = [Step("one", DayStepKind.Pass, 240, "hall"), Step("two", DayStepKind.Pass, 240, "hall"), Step("three", DayStepKind.Pass, 240, "hall", After("two", 0, 600))];
        var day = Plan(Shift("America/Toronto", 2025, 6, 10), steps, new AirClearance("hall", "re-entry", Duration.FromHours(24)));

        Assert.Equal(2, day.Days);
        Assert.False(day.FitsOneShift);
        Assert.Equal(new DateTimeOffset(2025, 6, 11, 7, 0, 0, TimeSpan.FromHours(-4)), day.Steps[2].Start);
        Assert.Equal([true, false], day.Clearances.Select(entry => entry.Broken));
        var miss = Assert.Single(day.Missed);
        Assert.Equal(("three", "two", 10.0, 16.0), (miss.Id, miss.After, miss.Allowed.Hours, miss.Found.Hours));
    }

    [Fact]
    public void Longest_allowed_times_round_down()
    {
        // 10.9 min allowed is 10 min for people: a step of 10.5 min misses it.
        var step = Step("shot", DayStepKind.Shot, 10.5) with { Longest = Duration.FromMinutes(10.9) };
        var miss = Assert.Single(Plan(Shift("UTC", 2025, 6, 10), [step]).Missed);

        Assert.Null(miss.After);
        Assert.Equal(10, miss.Allowed.Minutes, 1e-9);
        Assert.Empty(Plan(Shift("UTC", 2025, 6, 10), [step with { Longest = Duration.FromMinutes(11) }]).Missed);
    }

    [Fact]
    public void In_spring_a_wait_over_the_skipped_hour_ends_an_hour_later_by_the_clock()
    {
        // Berlin, 30 March 2025: 02:00 becomes 03:00. A night shift from 01:00 (+1): 2 h of waiting end at 04:00 (+2).
        var shift = new DayShift("Europe/Berlin", new DateOnly(2025, 3, 30), new TimeOnly(1, 0), new TimeOnly(9, 0));
        var day = Plan(shift, [Step("wait", DayStepKind.Wait, 120)]);

        Assert.Equal(new DateTimeOffset(2025, 3, 30, 1, 0, 0, TimeSpan.FromHours(1)), day.Steps[0].Start);
        Assert.Equal(new DateTimeOffset(2025, 3, 30, 4, 0, 0, TimeSpan.FromHours(2)), day.Steps[0].End);
        Assert.Equal(TimeSpan.FromHours(2), day.Steps[0].End.Offset);
    }

    [Fact]
    public void In_autumn_a_wait_over_the_repeated_hour_ends_an_hour_earlier_by_the_clock()
    {
        // Denver, 2 November 2025: 02:00 (−6) becomes 01:00 (−7). From midnight, 3 h of waiting end at 02:00 (−7).
        var shift = new DayShift("America/Denver", new DateOnly(2025, 11, 2), new TimeOnly(0, 0), new TimeOnly(8, 0));
        var day = Plan(shift, [Step("wait", DayStepKind.Wait, 180)]);

        Assert.Equal(new DateTimeOffset(2025, 11, 2, 2, 0, 0, TimeSpan.FromHours(-7)), day.Steps[0].End);
        Assert.Equal(TimeSpan.FromHours(-7), day.Steps[0].End.Offset);
    }

    [Fact]
    public void A_shift_that_starts_in_the_repeated_hour_is_taken_as_the_later_one_and_in_the_skipped_hour_is_refused()
    {
        var autumn = Plan(new DayShift("America/Denver", new DateOnly(2025, 11, 2), new TimeOnly(1, 30), new TimeOnly(8, 0)), [Step("a", DayStepKind.Move, 10)]);
        Assert.Equal(TimeSpan.FromHours(-7), autumn.Steps[0].Start.Offset);

        var spring = Day.Plan(new DayShift("Europe/Berlin", new DateOnly(2025, 3, 30), new TimeOnly(2, 30), new TimeOnly(8, 0)), [Step("a", DayStepKind.Move, 10)], [], Minute);
        Assert.Equal("shift", spring.Refusal!.Input);
        Assert.Equal("2025-03-30 02:30", spring.Refusal.Found.Text);
    }

    [Fact]
    public void A_night_shift_ends_the_next_morning()
    {
        var night = new DayShift("UTC", new DateOnly(2025, 6, 10), new TimeOnly(22, 0), new TimeOnly(6, 0));
        var day = Plan(night, [Step("a", DayStepKind.Pass, 300), Step("b", DayStepKind.Pass, 240)]);

        Assert.Equal(new DateTimeOffset(2025, 6, 11, 3, 0, 0, TimeSpan.Zero), day.Steps[0].End);
        Assert.Equal(new DateTimeOffset(2025, 6, 11, 22, 0, 0, TimeSpan.Zero), day.Steps[1].Start);
    }

    [Fact]
    public void Steps_never_overlap_leave_the_shift_or_cut_a_gap_short()
    {
        var step = Gen.Select(Gen.Double[0, 240], Gen.Double[0, 300], Gen.Int[0, 5]);
        Gen.Select(step.Array[1, 12], Gen.Int[0, 364]).Holds(c =>
        {
            var (list, offset) = c;
            var steps = list.Select((item, i) => Step($"s{i}", DayStepKind.Pass, item.Item1, "air", i > 0 ? [After($"s{Math.Max(0, i - 1 - item.Item3)}", item.Item2)] : [])).ToImmutableArray();
            var shift = Shift("Europe/Berlin", 2025, 1, 1) with { Date = new DateOnly(2025, 1, 1).AddDays(offset) };
            var day = Plan(shift, steps, new AirClearance("air", "re-entry", Duration.FromHours(1)));
            for (var i = 0; i < steps.Length; i++)
            {
                var entry = day.Steps[i];
                Assert.True(entry.Start.TimeOfDay >= TimeSpan.FromHours(7) && entry.End.TimeOfDay <= TimeSpan.FromHours(16));
                if (i == 0)
                    continue;
                Assert.True(entry.Start >= day.Steps[i - 1].End);
                var gap = steps[i].Gaps[0];
                Assert.True((entry.Start - day.Steps.First(other => other.Id == gap.After).End).TotalSeconds >= gap.AtLeast.Seconds - 1e-3);
            }

            Assert.Equal(day.Steps[^1].End.AddHours(1), day.Clearances[^1].Cleared);
        });
    }

    [Fact]
    public void Hours_and_minutes_give_the_same_day()
    {
        ImmutableArray<DayStep> hours = [.. ByHand.Select(step => step with { Duration = step.Duration.ToUnit(UnitsNet.Units.DurationUnit.Hour) })];
        Assert.Equal(
            Plan(Shift("Europe/Berlin", 2025, 6, 10), ByHand).Steps.Select(entry => $"{entry.End:HH:mm:ss}"),
            Plan(Shift("Europe/Berlin", 2025, 6, 10), hours).Steps.Select(entry => $"{entry.End:HH:mm:ss}"));
    }

    [Fact]
    public void Impossible_days_are_refused_by_name()
    {
        string? Refused(DayShift shift, ImmutableArray<DayStep> steps, params AirClearance[] clearances) => Day.Plan(shift, steps, [.. clearances], Minute).Refusal?.Input;
        var shift = Shift("Europe/Berlin", 2025, 6, 10);

        Assert.Equal("steps", Refused(shift, []));
        Assert.Equal("steps", Refused(shift, [Step("a", DayStepKind.Move, 1), Step("a", DayStepKind.Move, 1)]));
        Assert.Equal("duration of a", Refused(shift, [Step("a", DayStepKind.Move, -1)]));
        Assert.Equal("duration of a", Refused(shift, [Step("a", DayStepKind.Move, 541)]));
        Assert.Equal("gap of a", Refused(shift, [Step("a", DayStepKind.Move, 1, null, After("b", 1))]));
        Assert.Equal("gap of b", Refused(shift, [Step("a", DayStepKind.Move, 1), Step("b", DayStepKind.Move, 1, null, After("a", -1))]));
        Assert.Equal("wait of attic", Refused(shift, ByHand, new AirClearance("attic", "re-entry", Duration.FromHours(-1))));
        Assert.Equal("time zone", Refused(shift with { TimeZone = "Nowhere/Town" }, ByHand));
        Assert.Equal("time zone", Refused(shift with { TimeZone = "W. Europe Standard Time" }, ByHand));
        Assert.Equal("rounding", Day.Plan(shift, ByHand, [], Duration.FromHours(2)).Refusal!.Input);
    }
}
