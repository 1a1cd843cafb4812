using System.Collections.Immutable;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class TestShotsTests
{
    private static readonly TestShotSettings Three = new(3, 2, Ratio.FromPercent(95), Ratio.FromPercent(20), Ratio.FromPercent(15));

    private static ImmutableArray<TestShot> Shots(params (double Seconds, double Centimeters)[] shots) =>
        [.. shots.Select(shot => new TestShot(Duration.FromSeconds(shot.Seconds), Length.FromCentimeters(shot.Centimeters)))];

    private static readonly ImmutableArray<TestShot> ByHand = Shots((4, 62), (6, 95), (8, 124));

    [Fact]
    public void Three_shots_worked_by_hand_give_the_handbook_interval()
    {
        // Handbook 4.8, by hand: 4/6/8 s fill 62/95/124 cm, want 110: 7.05 s, 5.5 to 9.2 s. b 15.5, a 0.6667, s 1.633,
        // t 12.706, g 0.2240: the steps by hand give 7.0538, 5.490 and 9.227.
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three).Value;

        Assert.Equal(7.0538, answer.Aim.Seconds, 1e-4);
        Assert.Equal(5.49, answer.Low.Seconds, 0.005);
        Assert.Equal(9.23, answer.High.Seconds, 0.005);
        Assert.Equal(0.2240, answer.G, 1e-4);
        Assert.False(answer.NarrowEnough);
        Assert.Equal(-0.6667 / 15.5, answer.Calibration.Lag.Seconds, 1e-4);
        Assert.Equal(15.5, ((Length)answer.Calibration.SlopePerSecond).Centimeters, 1e-9);
        Assert.Equal(1.63299, ((Length)answer.Calibration.ResidualSpread!).Centimeters, 1e-4);
    }

    [Fact]
    public void The_interval_covers_the_truth_as_often_as_it_says()
    {
        // The interval of inverse prediction is exact for normal errors, so 90 % must come out as 90 %.
        var random = new Random(4711);
        double Noise(double sd) => sd * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
        var settings = Three with { Confidence = Ratio.FromPercent(90), BeyondTested = Ratio.FromPercent(100) };
        int covered = 0, answered = 0;
        for (var i = 0; i < 4000; i++)
        {
            var shots = Shots([.. new[] { 4.0, 5, 6, 7, 8 }.Select(x => (x, 5 + 15 * x + Noise(3)))]);
            var answer = TestShots.TimeFor(Length.FromCentimeters(5 + 15 * 6.5 + Noise(3)), shots, settings);
            if (!answer.HasValue)
                continue;
            answered++;
            if (answer.Value.Low.Seconds <= 6.5 && 6.5 <= answer.Value.High.Seconds)
                covered++;
        }

        Assert.True(answered > 3990);
        Assert.InRange((double)covered / answered, 0.885, 0.915);
    }

    [Fact]
    public void An_overflowed_shot_is_left_out()
    {
        var with = ByHand.Add(new TestShot(Duration.FromSeconds(10), Length.FromCentimeters(125), Overflowed: true));
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), with, Three).Value;

        Assert.Equal(TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three).Value.High, answer.High);
        Assert.Equal(1, answer.Calibration.ShotsOverflowed);
        Assert.Equal(Duration.FromSeconds(8), answer.Calibration.LongestTested);
    }

    [Fact]
    public void Shots_too_scattered_to_show_a_slope_give_no_answer_but_say_how_many_more_would_do()
    {
        var answer = TestShots.TimeFor(Length.FromCentimeters(95), Shots((4, 80), (6, 95), (8, 94)), Three);

        Assert.Equal("Fieller's g", answer.Refusal!.Input);
        Assert.Equal("below 1", answer.Refusal.Allowed);
        Assert.Contains("more shots", answer.Refusal.Why);
    }

    [Theory]
    [InlineData(45, false)] // 2.860 s is below 4 × 0.8
    [InlineData(55, true)]  // 3.505 s
    [InlineData(148, true)] // 9.505 s
    [InlineData(150, false)] // 9.634 s is above 8 × 1.2
    public void An_answer_stays_within_twenty_percent_of_the_tested_durations(double wanted, bool answered)
    {
        var answer = TestShots.TimeFor(Length.FromCentimeters(wanted), ByHand, Three);

        Assert.Equal(answered, answer.HasValue);
        if (!answered)
            Assert.Equal("3.2 to 9.6 s", answer.Refusal!.Allowed);
    }

    [Fact]
    public void Three_shots_do_when_the_spread_is_declared()
    {
        var five = Three with { LeastShots = 5, LeastShotsWithDeclaredSpread = 3 };
        Assert.Equal("5 or more that did not overflow", TestShots.TimeFor(Length.FromCentimeters(110), ByHand, five).Refusal!.Allowed);

        // 2 % of 110 cm is 2.2 cm; the shots' own 1.63 cm does not speak against it; t is the normal 1.95996.
        // By hand: ts/b = 0.278189, g = 0.0096736, centre 7.06410, half 0.33933: 6.7247 to 7.4034.
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), ByHand, five, Ratio.FromPercent(2)).Value;
        Assert.True(answer.SpreadIsDeclared);
        Assert.Equal(6.7247, answer.Low.Seconds, 1e-4);
        Assert.Equal(7.4034, answer.High.Seconds, 1e-4);
        Assert.True(answer.NarrowEnough);
        Assert.Equal(0, answer.MoreShotsToNarrowEnough);
    }

    [Fact]
    public void A_declared_spread_that_the_shots_contradict_is_not_believed()
    {
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three, Ratio.FromPercent(0.3)).Value;

        Assert.False(answer.SpreadIsDeclared);
        Assert.Equal(TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three).Value.High, answer.High);
    }

    [Fact]
    public void More_shots_are_counted_that_would_halve_the_interval()
    {
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three).Value;

        // With one more of the same kind t falls from 12.706 to 4.303: the half-width from 1.87 s to about 0.57 s.
        Assert.Equal(1, answer.MoreShotsToHalve);
        Assert.Equal(1, answer.MoreShotsToNarrowEnough);
    }

    [Fact]
    public void No_number_of_shots_halves_an_interval_that_the_gun_itself_makes()
    {
        var many = Shots([.. Enumerable.Range(0, 40).Select(i => (4.0 + i % 5, 15 * (4.0 + i % 5) + (i % 2 == 0 ? 3 : -3)))]);

        Assert.Null(TestShots.TimeFor(Length.FromCentimeters(90), many, Three).Value.MoreShotsToHalve);
    }

    [Fact]
    public void An_outlier_among_five_shots_is_named()
    {
        var shots = Shots((4, 60.2), (5, 75.1), (6, 99), (7, 104.8), (8, 120.1));
        var calibration = TestShots.Calibrate(shots, Three).Value;

        Assert.Equal(2, Assert.Single(calibration.Outliers).Shot);
        Assert.Empty(TestShots.Calibrate(Shots((4, 60.2), (5, 75.1), (6, 90.3), (7, 104.8), (8, 120.1)), Three).Value.Outliers);
    }

    [Fact]
    public void Looking_at_every_shot_asks_for_more_than_looking_at_one()
    {
        // The third lies 5 to 9 spreads off: beyond t(97.5 %, 2) = 4.30 for one shot, within t(99.5 %, 2) = 9.92 for the worst of five.
        double[] x = [4, 5, 6, 7, 8], y = [60.2, 75.1, 91.2, 104.8, 120.1], w = [1, 1, 1, 1, 1];
        Assert.InRange(TestShots.Studentized(x, y, w).Single(found => found.At == 2).T, 4.4, 9.8);

        Assert.Empty(TestShots.Calibrate(Shots([.. x.Zip(y)]), Three).Value.Outliers);
    }

    [Fact]
    public void Deleted_residuals_agree_with_the_closed_formula()
    {
        // t = r √((n − 3)/(SSE (1 − h) − r²)), standard text, from memory (high): no refitting.
        double[] x = [4, 5, 6, 7, 8, 9], y = [61, 74, 92, 103, 121, 133], w = [1, 1, 1, 1, 1, 1];
        var line = WeightedLine.Fit(x, y, w)!;
        foreach (var (at, t) in TestShots.Studentized(x, y, w))
        {
            var r = y[at] - line.At(x[at]);
            var leverage = 1.0 / 6 + (x[at] - line.MeanX) * (x[at] - line.MeanX) / line.Sxx;
            Assert.Equal(r * Math.Sqrt(3 / (line.SumOfSquares * (1 - leverage) - r * r)), t, 1e-9);
        }
    }

    [Fact]
    public void A_shot_off_an_otherwise_perfect_line_is_an_outlier_and_rounding_is_not()
    {
        Assert.Equal(3, Assert.Single(TestShots.Calibrate(Shots((4, 60), (5, 75), (6, 90), (7, 110), (8, 120)), Three).Value.Outliers).Shot);
        Assert.Empty(TestShots.Calibrate(Shots((4, 60.1), (5, 75.1), (6, 90.1), (7, 105.1), (8, 120.1)), Three).Value.Outliers);
    }

    [Fact]
    public void A_first_shot_cannot_overfill_the_smallest_void()
    {
        // 3.6 kg at 4.5 kg/min is 48 s; half of it 24 s.
        Assert.Equal(24, TestShots.FirstShot(Mass.FromKilograms(3.6), MassFlow.FromKilogramsPerMinute(4.5), Ratio.FromPercent(50)).Value.Seconds, 1e-9);
        Assert.Equal("above 0 and at most 100 %", TestShots.FirstShot(Mass.FromKilograms(3.6), MassFlow.FromKilogramsPerMinute(4.5), Ratio.FromPercent(101)).Refusal!.Allowed);
        Assert.False(TestShots.FirstShot(Mass.FromKilograms(3.6), MassFlow.Zero, Ratio.FromPercent(50)).HasValue);
        Assert.False(TestShots.FirstShot(Mass.Zero, MassFlow.FromKilogramsPerMinute(4.5), Ratio.FromPercent(50)).HasValue);
    }

    [Fact]
    public void A_top_up_is_read_from_the_same_line()
    {
        var missing = TestShots.TimeFor(Length.FromCentimeters(60), ByHand, Three).Value;
        var topUp = TestShots.TopUp(Length.FromCentimeters(110), Length.FromCentimeters(50), ByHand, Three);

        Assert.Equal(missing.Aim.Seconds, topUp.Value.Aim.Seconds, 1e-9);
        Assert.Equal("missing fill", topUp.Steps[0].Name);
        Assert.Equal("seconds for the fill", TestShots.TopUp(Length.FromCentimeters(110), Length.FromCentimeters(100), ByHand, Three).Refusal!.Input);
        Assert.Equal("fill seen", TestShots.TopUp(Length.FromCentimeters(110), Length.FromCentimeters(110), ByHand, Three).Refusal!.Input);
        Assert.Equal("fill seen", TestShots.TopUp(Length.FromCentimeters(110), Mass.FromKilograms(1), ByHand, Three).Refusal!.Input);
    }

    [Fact]
    public void Impossible_shots_are_refused_by_name()
    {
        var aim = Length.FromCentimeters(110);
        string? Refused(ImmutableArray<TestShot> shots) => TestShots.TimeFor(aim, shots, Three).Refusal?.Input;

        Assert.Equal("test shots", Refused([]));
        Assert.Equal("time of a test shot", Refused(Shots((0, 62), (6, 95), (8, 124))));
        Assert.Equal("fill of a test shot", Refused(Shots((4, -1), (6, 95), (8, 124))));
        Assert.Equal("fill of a test shot", Refused(ByHand.Add(new TestShot(Duration.FromSeconds(5), Mass.FromKilograms(2)))));
        Assert.Equal("weight of a test shot", Refused(ByHand.Add(new TestShot(Duration.FromSeconds(5), aim, Weight: double.NaN))));
        Assert.Equal("weight of a test shot", Refused(ByHand.Add(new TestShot(Duration.FromSeconds(5), aim, Weight: 0))));
        Assert.Equal("usable test shots", Refused(Shots((4, 62), (6, 95))));
        Assert.Equal("durations of the shots", Refused(Shots((4, 62), (4, 63), (4, 64))));
        Assert.Equal("slope of fill over time", Refused(Shots((4, 124), (6, 95), (8, 62))));
        Assert.Equal("wanted fill", TestShots.TimeFor(Length.Zero, ByHand, Three).Refusal!.Input);
        Assert.Equal("wanted fill", TestShots.TimeFor(Mass.FromKilograms(3), ByHand, Three).Refusal!.Input);
        Assert.Equal("confidence", TestShots.TimeFor(aim, ByHand, Three with { Confidence = Ratio.FromPercent(100) }).Refusal!.Input);
        Assert.Equal("declared spread", TestShots.TimeFor(aim, ByHand, Three, Ratio.Zero).Refusal!.Input);
    }

    [Fact]
    public void Every_step_names_its_source()
    {
        var answer = TestShots.TimeFor(Length.FromCentimeters(110), ByHand, Three);

        Assert.NotEmpty(answer.Steps);
        Assert.All(answer.Steps, step => Assert.False(string.IsNullOrWhiteSpace(step.Source)));
    }

    [Fact]
    public void Units_and_the_scale_of_the_weights_change_nothing()
    {
        var shots = Gen.Double[3, 20].Select(Gen.Double[-4, 4], (x, e) => (x, 10 + 15 * x + e)).Array[5, 9];
        shots.Holds(list =>
        {
            var metric = TestShots.TimeFor(Length.FromCentimeters(150), Shots(list), Three);
            var inches = TestShots.TimeFor(
                Length.FromInches(150 / 2.54),
                [.. list.Select(shot => new TestShot(Duration.FromMinutes(shot.x / 60), Length.FromInches(shot.Item2 / 2.54), Weight: 7))], Three);
            Assert.Equal(metric.HasValue, inches.HasValue);
            if (metric.HasValue)
            {
                Assert.Equal(metric.Value.Low.Seconds, inches.Value.Low.Seconds, 1e-6);
                Assert.Equal(metric.Value.High.Seconds, inches.Value.High.Seconds, 1e-6);
            }
        });
    }

    [Fact]
    public void More_fill_never_takes_less_time_and_the_aim_lies_inside_its_interval()
    {
        Gen.Select(Gen.Double[60, 140], Gen.Double[0.1, 8]).Holds(c =>
        {
            var (wanted, more) = c;
            var less = TestShots.TimeFor(Length.FromCentimeters(wanted), ByHand, Three).Value;
            var greater = TestShots.TimeFor(Length.FromCentimeters(wanted + more), ByHand, Three).Value;
            Assert.True(greater.Aim > less.Aim);
            Assert.True(less.Low < less.Aim && less.Aim < less.High);
        });
    }
}
