using System.Collections.Immutable;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class RotationTests
{
    private static readonly RotationSettings Settings = new(Duration.FromSeconds(120), 1.5, null, Duration.FromSeconds(30), Duration.Zero);

    private static FillHole Hole(string name, string compartment, int pours, double seconds = 10, double? coolingMinutes = null) => new(
        name, compartment, [.. Enumerable.Repeat(Duration.FromSeconds(seconds), pours)], coolingMinutes is { } minutes ? Duration.FromMinutes(minutes) : null);

    private static ImmutableArray<FillHole> Row(int holes, int pours, double seconds = 10) =>
        [.. Enumerable.Range(1, holes).Select(i => Hole($"h{i}", $"c{i}", pours, seconds))];

    [Fact]
    public void Two_pours_in_six_holes_worked_by_hand()
    {
        // Wait 1.5 × 120 = 180 s. Turn of n: back at the first n − 1 shots and 2(n − 1) walks of 30 s later, 70(n − 1) s:
        // 3 give 140 (too soon), 4 give 210. Six holes are then one turn of six: 5 × 70 = 350 s.
        var plan = Rotation.Plan(Row(6, 2), Settings).Value;

        Assert.True(plan.Works);
        Assert.Null(plan.Wait);
        Assert.Equal(4, plan.CompartmentsInTurn);
        Assert.Equal(180, plan.RequiredWaits["c1"].Seconds);
        Assert.Equal(["h1", "h2", "h3", "h4", "h5", "h6", "h1", "h2", "h3", "h4", "h5", "h6"], plan.Shots.Select(shot => shot.Hole));
        Assert.Equal(350, plan.Shots[6].SinceLast!.Value.Seconds, 1e-9);
        // First pour 0 to 10 s, second hole 40 to 50 s.
        Assert.Equal(40, plan.Shots[1].Start.Seconds, 1e-9);
        Assert.Equal(50, plan.Shots[1].End.Seconds, 1e-9);
        Assert.Equal(2, plan.Shots[6].Pour);
    }

    [Fact]
    public void A_planned_turn_is_held_to_the_same_waits()
    {
        // By the same hand: turns of 3 come back after 140 of 180 s and pause 40; turns of 4 come back after 210 and need none.
        var three = Rotation.InTurnsOf(Row(8, 2), 3, Settings).Value;
        var four = Rotation.InTurnsOf(Row(8, 2), 4, Settings).Value;

        Assert.False(three.Works);
        Assert.Equal(40, three.Wait!.Value.Seconds, 1e-9);
        Assert.True(four.Works);
        Assert.Equal(Rotation.Plan(Row(8, 2), Settings).Value.Shots, four.Shots);
        Assert.Equal("compartments in turn", Rotation.InTurnsOf(Row(8, 2), 0, Settings).Refusal!.Input);
    }

    [Fact]
    public void A_long_row_is_cut_into_short_turns()
    {
        var plan = Rotation.Plan(Row(8, 2), Settings).Value;

        Assert.Equal(4, plan.CompartmentsInTurn);
        Assert.Equal(["h1", "h2", "h3", "h4", "h1", "h2", "h3", "h4", "h5"], plan.Shots.Take(9).Select(shot => shot.Hole));
        Assert.Equal(210, plan.Shots[4].SinceLast!.Value.Seconds, 1e-9);
    }

    [Fact]
    public void When_no_rotation_works_the_answer_is_how_long_to_stand_and_wait()
    {
        // Two holes: back after 30 + 10 + 30 = 70 s of 180 s: 110 s are missing, rounded up to 2 min.
        var plan = Rotation.Plan(Row(2, 2), Settings with { RoundTo = Duration.FromMinutes(1) }).Value;

        Assert.False(plan.Works);
        Assert.Equal(2, plan.Wait!.Value.Minutes);
        Assert.Equal(180, plan.Shots[2].SinceLast!.Value.Seconds, 1e-9);
        Assert.Equal(110, plan.Shots[2].Pause.Seconds, 1e-9);
    }

    [Fact]
    public void One_pour_in_each_compartment_needs_no_wait()
    {
        var plan = Rotation.Plan(Row(3, 1), Settings).Value;

        Assert.True(plan.Works);
        Assert.Equal(1, plan.CompartmentsInTurn);
        Assert.All(plan.Shots, shot => Assert.Null(shot.SinceLast));
    }

    [Theory]
    [InlineData(1.5, 120, null, null, 180)]
    [InlineData(1.5, 120, 600.0, null, 600)]
    [InlineData(1.5, 120, 600.0, 44.0, 2640)] // handbook 4: about 44 min in a 6×6
    [InlineData(2, 400, 600.0, null, 800)]
    public void The_longest_of_rise_sheet_and_cooling_governs(double factor, double rise, double? sheet, double? cooling, double expected)
    {
        var settings = Settings with { RiseFactor = factor, FullRise = Duration.FromSeconds(rise), SheetWait = sheet is { } s ? Duration.FromSeconds(s) : null };

        Assert.Equal(expected, Rotation.Plan([Hole("h", "c", 2, 10, cooling)], settings).Value.RequiredWaits["c"].Seconds, 1e-9);
    }

    [Fact]
    public void A_second_hole_into_the_same_compartment_is_a_return_to_it()
    {
        var plan = Rotation.Plan([Hole("low", "a", 1), Hole("high", "a", 1), Hole("other", "b", 1)], Settings).Value;

        Assert.False(plan.Works);
        Assert.Equal(["low", "other", "high"], plan.Shots.Select(shot => shot.Hole));
        Assert.Equal(180, plan.Shots[2].SinceLast!.Value.Seconds, 1e-9);
    }

    [Fact]
    public void No_timetable_ever_returns_too_soon_or_loses_a_pour()
    {
        var hole = Gen.Select(Gen.Int[0, 4], Gen.Int[1, 3], Gen.Double[2, 40], Gen.Double[0, 20]);
        Gen.Select(hole.Array[1, 9], Gen.Double[20, 400], Gen.Double[1, 3], Gen.Double[0, 900], Gen.Double[0, 90]).Holds(c =>
        {
            var (list, rise, factor, sheet, walk) = c;
            ImmutableArray<FillHole> holes = [.. list.Select((item, i) => Hole($"h{i}", $"c{item.Item1}", item.Item2, item.Item3, item.Item4))];
            var settings = new RotationSettings(Duration.FromSeconds(rise), factor, Duration.FromSeconds(sheet), Duration.FromSeconds(walk), Duration.Zero);
            var plan = Rotation.Plan(holes, settings).Value;

            Assert.Equal(holes.Sum(item => item.Shots.Length), plan.Shots.Length);
            var ended = new Dictionary<string, double>();
            var before = 0.0;
            foreach (var shot in plan.Shots)
            {
                Assert.True(shot.Start.Seconds >= before - 1e-9);
                var cooling = holes.Where(item => item.Compartment == shot.Compartment).Max(item => item.CoolingBelow!.Value.Seconds);
                if (ended.TryGetValue(shot.Compartment, out var last))
                    Assert.True(shot.Start.Seconds - last >= Math.Max(Math.Max(factor * rise, sheet), cooling) - 1e-6);
                Assert.True(plan.Works ? shot.Pause.Seconds <= 0 : plan.Wait >= shot.Pause);
                before = ended[shot.Compartment] = shot.End.Seconds;
            }
        });
    }

    [Fact]
    public void Impossible_rotations_are_refused_by_name()
    {
        string? Refused(ImmutableArray<FillHole> holes, RotationSettings settings) => Rotation.Plan(holes, settings).Refusal?.Input;

        Assert.Equal("holes", Refused([], Settings));
        Assert.Equal("holes", Refused([Hole("a", "x", 1), Hole("a", "y", 1)], Settings));
        Assert.Equal("shots of a", Refused([Hole("a", "x", 0)], Settings));
        Assert.Equal("shot of a", Refused([Hole("a", "x", 1, 0)], Settings));
        Assert.Equal("cooling below a", Refused([Hole("a", "x", 1, 10, -1)], Settings));
        Assert.Equal("full rise", Refused(Row(2, 2), Settings with { FullRise = Duration.Zero }));
        Assert.Equal("factor on full rise", Refused(Row(2, 2), Settings with { RiseFactor = 0.9 }));
        Assert.Equal("factor on full rise", Refused(Row(2, 2), Settings with { RiseFactor = double.NaN }));
        Assert.Equal("walking time", Refused(Row(2, 2), Settings with { Walk = Duration.FromSeconds(-1) }));
        Assert.Equal("sheet's wait", Refused(Row(2, 2), Settings with { SheetWait = Duration.FromSeconds(-1) }));
    }
}
