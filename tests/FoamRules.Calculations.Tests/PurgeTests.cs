using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class PurgeTests
{
    private static readonly Volume Room = Volume.FromCubicMeters(100);

    public static TheoryData<double, double, double, double> CdcRows()
    {
        var rows = new TheoryData<double, double, double, double>();
        foreach (var row in CheckValues.Read("cdc-clearance.csv"))
            rows.Add(Number(row["air_changes_per_hour"]), Number(row["removal_percent"]), Number(row["minutes"]), Number(row["tolerance_minutes"]));
        return rows;
    }

    // CDC (2003), App. B, Table B.1, all 18 cells; perfect mixing, no source. Once by the closed form, once by the search.
    [Theory]
    [MemberData(nameof(CdcRows))]
    public void Decay_agrees_with_the_CDC_table(double airChanges, double percent, double minutes, double tolerance)
    {
        var closed = Purge.TimeToRemove(PerHour(airChanges), 1, Ratio.FromPercent(percent)).Value;
        Assert.Equal(minutes, closed.Minutes, tolerance);
        var searched = Hours(Case(new EmissionSource.None(), 1, airChanges), 1 - percent / 100);
        Assert.Equal(closed.Hours, searched, 1e-9);
    }

    [Fact]
    public void The_CDC_table_has_its_18_cells() => Assert.Equal(18, CheckValues.Read("cdc-clearance.csv").Count);

    // Health Canada's table prints 3 for 13 air changes, 99.9 %: a misprint for 32.
    [Fact]
    public void Thirteen_air_changes_take_32_minutes() =>
        Assert.Equal(32, Purge.TimeToRemove(PerHour(13), 1, Ratio.FromPercent(99.9)).Value.Minutes, 0.5);

    [Fact]
    public void Mixing_factor_multiplies_the_time() =>
        Assert.Equal(3 * 46.05, Purge.TimeToRemove(PerHour(6), 3, Ratio.FromPercent(99)).Value.Minutes, 0.05);

    [Fact]
    public void Air_changes_are_flow_over_volume() =>
        Assert.Equal(6, Purge.AirChanges(VolumeFlow.FromCubicFeetPerMinute(800), Volume.FromCubicFeet(8000)).Value.CyclesPerHour, 1e-9);

    // By hand: n 4, k 1, S₀ 3 mg/m³h, C₀ 1: at 1 h e^−4 + (3 ÷ 3)(e^−1 − e^−4) = e^−1 = 0.36788 mg/m³.
    [Fact]
    public void Dying_source_agrees_with_the_formula_by_hand()
    {
        var purge = Case(Dying(3, 1), 1, 4);
        Assert.Equal(0.36788, Purge.ConcentrationAfter(purge, Duration.FromHours(1)).Value.MilligramsPerCubicMeter, 0.000005);
        // And e^−t = 0.01 at 4.60517 h.
        Assert.Equal(4.60517, Hours(purge, 0.01), 0.000005);
    }

    // n = k: C = (C₀ + S₀ t) e^(−nt); n 2, S₀ 3, 1 h: 4 e^−2 = 0.54134. The same within 1e-7 of it.
    [Theory]
    [InlineData(2)]
    [InlineData(2 + 1e-9)]
    [InlineData(2 - 1e-9)]
    public void Equal_decay_of_source_and_air_is_no_special_case(double decay) =>
        Assert.Equal(0.541341, Purge.ConcentrationAfter(Case(Dying(3, decay), 1, 2), Duration.FromHours(1)).Value.MilligramsPerCubicMeter, 0.000001);

    // By hand: S 2 mg/m³h, n 4: steady 0.5; C₀ 1: 0.5 + 0.5 e^−4t = 0.6 at ln 5 ÷ 4 = 0.40236 h. With K 2: steady 1.0.
    [Fact]
    public void Constant_source_leaves_a_steady_concentration()
    {
        Assert.Equal(0.40236, Hours(Case(Constant(2), 1, 4), 0.6), 0.000005);
        Assert.IsType<PurgeTime.Never>(Time(Case(Constant(2), 2, 4), 0.6));
    }

    [Theory]
    [InlineData(0.5)]
    [InlineData(0.3)]
    public void Constant_source_at_or_above_the_limit_is_never(double limit) =>
        Assert.IsType<PurgeTime.Never>(Time(Case(Constant(2), 1, 4), limit));

    [Fact]
    public void Clean_air_with_a_source_too_strong_is_never_too() =>
        Assert.IsType<PurgeTime.Never>(Time(Case(Constant(2), 1, 4) with { Initial = MassConcentration.Zero }, 0.4));

    [Fact]
    public void No_ventilation_at_the_end_is_never_unless_the_air_is_clean_enough()
    {
        var stages = Stages((4, 2), (0, null));
        // e^−8 = 0.000335 mg/m³ is left after two hours.
        Assert.IsType<PurgeTime.StaysBelowFrom>(Time(Case(new EmissionSource.None(), 1, stages), 0.001));
        Assert.IsType<PurgeTime.Never>(Time(Case(new EmissionSource.None(), 1, stages), 0.0003));
        // 0.1 mg/m³h that dies at 1/h: in the air e^−8 + (0.1 ÷ 3)(e^−2 − e^−8) = 0.00484 mg/m³, still to come 0.1 e^−2 = 0.01353: 0.01837 in all.
        Assert.IsType<PurgeTime.Never>(Time(Case(Dying(0.1, 1), 1, stages), 0.0183));
        Assert.IsType<PurgeTime.StaysBelowFrom>(Time(Case(Dying(0.1, 1), 1, stages), 0.0184));
    }

    [Fact]
    public void The_last_time_above_the_limit_counts_and_not_the_first_below()
    {
        // Strong air first takes the room below 0.1 mg/m³ within the first hour; with weak air the source lifts it above again.
        var purge = Case(Dying(2, 0.5), 1, Stages((40, 1), (1, null)));
        Assert.True(Purge.ConcentrationAfter(purge, Duration.FromHours(0.9)).Value.MilligramsPerCubicMeter < 0.1);
        Assert.True(Purge.ConcentrationAfter(purge, Duration.FromHours(2)).Value.MilligramsPerCubicMeter > 0.1);
        var hours = Hours(purge, 0.1);
        Assert.True(hours > 2);
        Assert.Equal(0.1, Purge.ConcentrationAfter(purge, Duration.FromHours(hours)).Value.MilligramsPerCubicMeter, 1e-9);
    }

    [Fact]
    public void Clean_room_with_a_source_is_judged_after_its_peak()
    {
        // Starts at zero, below the limit; peak of (1/3)(e^−t − e^−4t) is 0.158 mg/m³ at 0.462 h; down to 0.1 later.
        var purge = Case(Dying(1, 1), 1, 4) with { Initial = MassConcentration.Zero };
        var hours = Hours(purge, 0.1);
        Assert.True(hours > 0.462);
        Assert.Equal(0.1, (Math.Exp(-hours) - Math.Exp(-4 * hours)) / 3, 1e-9);
        Assert.Equal(0, Hours(purge, 0.16));
    }

    // ASTM STP 1589's room: 10 air changes for 3 h, then 1. No source: C = e^−10t; 1 % is reached at 0.46052 h, and e^−31 at 3 h + 1 h.
    [Theory]
    [InlineData(0.01, 0.46052)]
    [InlineData(3.442e-14, 4.0)]
    public void Stages_follow_each_other(double limit, double hours) =>
        Assert.Equal(hours, Hours(Case(new EmissionSource.None(), 1, Stages((10, 3), (1, null))), limit), 0.0005);

    [Fact]
    public void Air_below_the_limit_from_the_start_takes_no_time() =>
        Assert.Equal(0, Hours(Case(new EmissionSource.None(), 1, 4), 2));

    [Fact]
    public void The_answer_is_the_last_time_above_the_limit_in_a_fine_scan() =>
        Cases.Holds(purge =>
        {
            const double limit = 0.2;
            const double step = 0.01;
            var answer = Time(purge, limit);
            var lastAbove = Enumerable.Range(0, 10_000).Select(i => i * step)
                .LastOrDefault(hours => Purge.ConcentrationAfter(purge, Duration.FromHours(hours)).Value.MilligramsPerCubicMeter > limit, -step);
            if (answer is PurgeTime.StaysBelowFrom below && below.Time.Hours < 99)
                Assert.InRange(below.Time.Hours, lastAbove, lastAbove + step + 1e-9);
            else
                // Never, or later than the scan: above at its end, or creeping up to the limit from below.
                Assert.True(lastAbove > 99 || purge.Source is EmissionSource.Constant);
        }, cases: 20);

    [Fact]
    public void More_ventilation_never_lengthens_the_purge() =>
        Gen.Select(Cases, Gen.Double[0.01, 5], Gen.Double[0.05, 1]).Holds(at =>
        {
            var (purge, more, limit) = at;
            var better = purge with { Stages = [.. purge.Stages.Select(stage => stage with { AirChanges = stage.AirChanges + PerHour(more) })] };
            Assert.True(HoursOrForever(better, limit) <= HoursOrForever(purge, limit) + 1e-9);
        });

    [Fact]
    public void Worse_mixing_dirtier_air_or_a_tighter_limit_never_shortens_the_purge() =>
        Gen.Select(Cases, Gen.Double[0, 3], Gen.Double[0.1, 1]).Holds(at =>
        {
            var (purge, more, limit) = at;
            var hours = HoursOrForever(purge, limit) - 1e-9;
            Assert.True(HoursOrForever(purge with { MixingFactor = purge.MixingFactor + more }, limit) >= hours);
            Assert.True(HoursOrForever(purge with { Initial = purge.Initial + Milligrams(more) }, limit) >= hours);
            Assert.True(HoursOrForever(purge, limit * 0.9) >= hours);
        });

    [Fact]
    public void One_stage_cut_in_two_is_the_same_stage() =>
        Gen.Select(Gen.Double[0.1, 10], Gen.Double[0.1, 10], Gen.Double[0.1, 2]).Holds(at =>
        {
            var (air, decay, cut) = at;
            var whole = Hours(Case(Dying(1, decay), 1, air), 0.01);
            Assert.Equal(whole, Hours(Case(Dying(1, decay), 1, Stages((air, cut), (air, null))), 0.01), whole * 1e-9);
        });

    [Fact]
    public void Cubic_feet_and_cubic_metres_give_the_same_time()
    {
        var metric = Case(Dying(3, 1), 2, 4);
        var inchPound = metric with { Room = Volume.FromCubicFeet(Room.CubicFeet), Source = new EmissionSource.Dying(MassFlow.FromPoundsPerHour(MassFlow.FromMilligramsPerSecond(300.0 / 3600).PoundsPerHour), PerHour(1)) };
        Assert.Equal(Hours(metric, 0.01), Hours(inchPound, 0.01), 1e-9);
    }

    [Theory]
    [InlineData(0.99)]
    [InlineData(10.01)]
    [InlineData(double.NaN)]
    [InlineData(double.NegativeInfinity)]
    public void Mixing_factor_outside_its_range_is_refused(double factor)
    {
        Assert.Equal("mixing factor", Purge.LastTimeAbove(Case(new EmissionSource.None(), factor, 4), Milligrams(1)).Refusal!.Input);
        Assert.Equal("mixing factor", Purge.TimeToRemove(PerHour(4), factor, Ratio.FromPercent(99)).Refusal!.Input);
    }

    [Fact]
    public void Inputs_outside_their_range_are_refused()
    {
        var good = Case(new EmissionSource.None(), 1, 4);
        Assert.Equal("limit", Refused(good, 0));
        Assert.Equal("initial concentration", Refused(good with { Initial = Milligrams(-1) }));
        Assert.Equal("room volume", Refused(good with { Room = Volume.Zero }));
        Assert.Equal("emission", Refused(good with { Source = Constant(-1) }));
        Assert.Equal("decay of the source", Refused(good with { Source = Dying(1, 0) }));
        Assert.Equal("initial emission", Refused(good with { Source = Dying(-1, 1) }));
        Assert.Equal("ventilation stages", Refused(good with { Stages = [] }));
        Assert.Equal("ventilation stages", Refused(good with { Stages = default }));
        Assert.Equal("ventilation stages", Refused(good with { Stages = Stages((4, 1)) }));
        Assert.Equal("length of a stage", Refused(good with { Stages = Stages((4, null), (4, null)) }));
        Assert.Equal("length of a stage", Refused(good with { Stages = Stages((4, 0), (4, null)) }));
        Assert.Equal("air changes", Refused(good with { Stages = Stages((-4, null)) }));
        Assert.Equal("time", Purge.ConcentrationAfter(good, Duration.FromHours(-1)).Refusal!.Input);
        Assert.Equal("share removed", Purge.TimeToRemove(PerHour(4), 1, Ratio.FromPercent(100)).Refusal!.Input);
        Assert.Equal("air changes", Purge.TimeToRemove(PerHour(0), 1, Ratio.FromPercent(99)).Refusal!.Input);
        Assert.Equal("room volume", Purge.AirChanges(VolumeFlow.FromCubicMetersPerHour(1), Volume.Zero).Refusal!.Input);
    }

    private static readonly Gen<PurgeCase> Cases =
        Gen.Select(Gen.Int[0, 2], Gen.Double[0.05, 3], Gen.Double[0.05, 5], Gen.Double[1, 4], Gen.Double[0.5, 10], Gen.Double[0.1, 3], Gen.Double[0.5, 10])
            .Select((kind, emission, decay, mixing, first, length, second) => Case(
                kind switch { 0 => new EmissionSource.None(), 1 => Constant(emission), _ => Dying(emission, decay) }, mixing, Stages((first, length), (second, null))));

    private static PurgeCase Case(EmissionSource source, double mixing, double airChanges) => Case(source, mixing, Stages((airChanges, null)));

    private static PurgeCase Case(EmissionSource source, double mixing, ImmutableArray<VentilationStage> stages) =>
        new(Milligrams(1), source, Room, mixing, stages);

    // Emission given per m³ of the 100 m³ room: 1 mg/m³h is 100 mg/h.
    private static EmissionSource.Constant Constant(double perCubicMetre) => new(Emission(perCubicMetre));

    private static EmissionSource.Dying Dying(double perCubicMetre, double decay) => new(Emission(perCubicMetre), PerHour(decay));

    private static MassFlow Emission(double perCubicMetre) => Mass.FromMilligrams(perCubicMetre * Room.CubicMeters) / Duration.FromHours(1);

    private static ImmutableArray<VentilationStage> Stages(params (double AirChanges, double? Hours)[] stages) =>
        [.. stages.Select(stage => new VentilationStage(PerHour(stage.AirChanges), stage.Hours is { } hours ? Duration.FromHours(hours) : null))];

    private static PurgeTime Time(PurgeCase purge, double limit) => Purge.LastTimeAbove(purge, Milligrams(limit)).Value;

    private static double Hours(PurgeCase purge, double limit) => Assert.IsType<PurgeTime.StaysBelowFrom>(Time(purge, limit)).Time.Hours;

    private static double HoursOrForever(PurgeCase purge, double limit) =>
        Time(purge, limit) is PurgeTime.StaysBelowFrom below ? below.Time.Hours : double.PositiveInfinity;

    private static string Refused(PurgeCase purge, double limit = 1) => Purge.LastTimeAbove(purge, Milligrams(limit)).Refusal!.Input;

    private static MassConcentration Milligrams(double value) => MassConcentration.FromMilligramsPerCubicMeter(value);

    private static Frequency PerHour(double value) => Frequency.FromCyclesPerHour(value);

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
