using System.Collections.Immutable;
using System.Globalization;
using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

public class NoiseDoseTests
{
    private static Level Db(double value) => Level.FromDecibels(value);

    private static NoiseExposure Task(string name, double level, double hours, double? peak = null) =>
        new(name, Db(level), Duration.FromHours(hours), peak is { } p ? Db(p) : null);

    // 29 CFR 1926.52 table D-2 (read), typed by hand.
    private static readonly NoiseRule Construction = new(
        Db(90), Duration.FromHours(8), Db(5), Db(90),
        [
            new(Db(90), Duration.FromHours(8)), new(Db(92), Duration.FromHours(6)), new(Db(95), Duration.FromHours(4)), new(Db(97), Duration.FromHours(3)), new(Db(100), Duration.FromHours(2)),
            new(Db(102), Duration.FromHours(1.5)), new(Db(105), Duration.FromHours(1)), new(Db(110), Duration.FromHours(0.5)), new(Db(115), Duration.FromHours(0.25)),
        ],
        Db(115), Db(140), "29 CFR 1926.52 table D-2 (read)");

    // EU and UK upper action value: 85 dB(A), equal energy, peak 137 dB(C); from memory (high).
    private static readonly NoiseRule EqualEnergy = new(Db(85), Duration.FromHours(8), Db(3), null, [], null, Db(137), "Directive 2003/10/EC (from memory, high)");

    public static TheoryData<double, double> Table()
    {
        var data = new TheoryData<double, double>();
        foreach (var row in CheckValues.Read("noise.csv"))
            data.Add(double.Parse(row["level_dba"], CultureInfo.InvariantCulture), double.Parse(row["hours"], CultureInfo.InvariantCulture));
        return data;
    }

    [Theory]
    [MemberData(nameof(Table))]
    public void Every_row_of_the_table_is_kept(double level, double hours)
    {
        Assert.Equal(hours, NoiseDose.AllowedTime(Db(level), Construction).Value.Hours);
        Assert.Equal(1, NoiseDose.Dose([Task("all day", level, hours)], Construction).Value.Dose!.Value.DecimalFractions, 1e-12);
        // The formula alone stays within 1.1 % of it (noise.csv).
        Assert.Equal(hours, NoiseDose.AllowedTime(Db(level), Construction with { Table = [] }).Value.Hours, 0.011 * hours);
    }

    [Theory]
    [InlineData(92.05, 6)]    // formula 6.02 h, longer than the table at 92
    [InlineData(93, 5.278)]   // 8/2^(3/5)
    [InlineData(91, 6.964)]   // 8/2^(1/5)
    [InlineData(110.5, 0.4665)]
    public void Between_the_rows_the_shorter_time_holds(double level, double hours) =>
        Assert.Equal(hours, NoiseDose.AllowedTime(Db(level), Construction).Value.Hours, 5e-4);

    [Fact]
    public void A_mixed_day_worked_by_hand_adds_up()
    {
        // 95 dBA 2 h of 4, 90 dBA 3 h of 8, 100 dBA 0.5 h of 2, 85 dBA below the threshold: 0.5 + 0.375 + 0.25 = 1.125.
        // Equivalent: 90 + 5 log₂ 1.125 = 90.85 dBA.
        var result = NoiseDose.Dose([Task("spray", 95, 2), Task("grind", 100, 0.5), Task("compressor", 90, 3), Task("sweep", 85, 2)], Construction).Value;

        Assert.Equal(112.5, result.Dose!.Value.Percent, 1e-9);
        Assert.Equal(90.85, result.EquivalentLevel!.Value.Decibels, 0.005);
        Assert.Empty(result.AboveCeiling);
    }

    [Fact]
    public void Three_decibels_halve_the_time_where_the_rule_says_so()
    {
        // 85 dBA 4 h and 88 dBA 2 h are each half of the day; 94 dBA for 1 h is all of it.
        Assert.Equal(1, NoiseDose.Dose([Task("a", 85, 4), Task("b", 88, 2)], EqualEnergy).Value.Dose!.Value.DecimalFractions, 1e-12);
        Assert.Equal(85, NoiseDose.Dose([Task("c", 94, 1)], EqualEnergy).Value.EquivalentLevel!.Value.Decibels, 1e-9);
        // Equal energy exactly: 10 lg(½(10^8.5 + 10^9.1)) = 89.0 dBA over 8 h for 4 h at 85 and 4 h at 91 (by hand: 88.963).
        var exact = EqualEnergy with { ExchangeRate = Db(10 * Math.Log10(2)) };
        Assert.Equal(88.963, NoiseDose.Dose([Task("a", 85, 4), Task("b", 91, 4)], exact).Value.EquivalentLevel!.Value.Decibels, 1e-3);
    }

    [Fact]
    public void Above_the_ceiling_there_is_no_dose_and_no_time()
    {
        var result = NoiseDose.Dose([Task("chisel", 116, 0.01), Task("spray", 95, 1)], Construction).Value;

        Assert.Null(result.Dose);
        Assert.Equal(["chisel"], result.AboveCeiling);
        Assert.Equal("at most 115 dBA", NoiseDose.AllowedTime(Db(116), Construction).Refusal!.Allowed);
    }

    [Fact]
    public void Peaks_are_named_apart_from_the_dose()
    {
        var result = NoiseDose.Dose([Task("nailer", 80, 1, 141), Task("spray", 80, 1, 120)], Construction).Value;

        Assert.Equal(["nailer"], result.PeaksAbove);
        Assert.Equal(0, result.Dose!.Value.DecimalFractions);
        Assert.Null(result.EquivalentLevel);
    }

    [Fact]
    public void Louder_or_longer_is_never_a_smaller_dose()
    {
        Gen.Select(Gen.Double[70, 114], Gen.Double[0, 1], Gen.Double[0.1, 6], Gen.Double[0, 2], Gen.Bool).Holds(c =>
        {
            var (level, louder, hours, longer, energy) = c;
            double Dose(double l, double h) => NoiseDose.Dose([Task("a", l, h)], energy ? EqualEnergy : Construction).Value.Dose!.Value.DecimalFractions;
            Assert.True(Dose(level + louder, hours) >= Dose(level, hours));
            Assert.True(Dose(level, hours + longer) >= Dose(level, hours));
        });
    }

    [Fact]
    public void Impossible_days_are_refused_by_name()
    {
        string? Refused(NoiseRule rule, params NoiseExposure[] exposures) => NoiseDose.Dose([.. exposures], rule).Refusal?.Input;

        Assert.Equal("times together", Refused(Construction, Task("a", 90, 20), Task("b", 90, 5)));
        Assert.Equal("time of a", Refused(Construction, Task("a", 90, -1)));
        Assert.Equal("level of a", Refused(Construction, Task("a", 200, 1)));
        Assert.Equal("exchange rate", Refused(Construction with { ExchangeRate = Db(0) }, Task("a", 90, 1)));
        Assert.Equal("criterion time", Refused(Construction with { CriterionTime = Duration.Zero }, Task("a", 90, 1)));
        Assert.Equal("time of the table", Refused(Construction with { Table = [new(Db(90), Duration.Zero)] }, Task("a", 90, 1)));
        Assert.Equal(0, NoiseDose.Dose(ImmutableArray<NoiseExposure>.Empty, Construction).Value.Dose!.Value.DecimalFractions);
    }
}
