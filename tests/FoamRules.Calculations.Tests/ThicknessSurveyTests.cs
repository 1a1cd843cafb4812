using System.Collections.Immutable;
using CsCheck;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Calculations.Tests;

public class ThicknessSurveyTests
{
    private static readonly ThicknessSettings Settings = new(ThicknessTest.LowerBoundOfMean, Ratio.FromPercent(95), Length.FromMillimeters(2), 3, Area.FromSquareMeters(10));

    private static ThicknessResult Survey(IEnumerable<double> values, ThicknessSettings? settings = null, LengthUnit unit = LengthUnit.Millimeter, double area = 30)
    {
        var answer = ThicknessSurvey.Summarize([.. values.Select(value => new Length(value, unit))], Area.FromSquareMeters(area), settings ?? Settings);
        Assert.True(answer.HasValue, answer.Refusal?.ToString());
        return answer.Value;
    }

    // NIST StRD univariate sets; data and certified values read in public copies of the NIST files (Michelso, Mavro), the
    // NumAcc sets from memory (certain: they are made by rule).
    private static readonly double[] Michelso =
    [
        299.85, 299.74, 299.90, 300.07, 299.93, 299.85, 299.95, 299.98, 299.98, 299.88, 300.00, 299.98, 299.93, 299.65, 299.76, 299.81, 300.00, 300.00, 299.96, 299.96,
        299.96, 299.94, 299.96, 299.94, 299.88, 299.80, 299.85, 299.88, 299.90, 299.84, 299.83, 299.79, 299.81, 299.88, 299.88, 299.83, 299.80, 299.79, 299.76, 299.80,
        299.88, 299.88, 299.88, 299.86, 299.72, 299.72, 299.62, 299.86, 299.97, 299.95, 299.88, 299.91, 299.85, 299.87, 299.84, 299.84, 299.85, 299.84, 299.84, 299.84,
        299.89, 299.81, 299.81, 299.82, 299.80, 299.77, 299.76, 299.74, 299.75, 299.76, 299.91, 299.92, 299.89, 299.86, 299.88, 299.72, 299.84, 299.85, 299.85, 299.78,
        299.89, 299.84, 299.78, 299.81, 299.76, 299.81, 299.79, 299.81, 299.82, 299.85, 299.87, 299.87, 299.81, 299.74, 299.81, 299.94, 299.95, 299.80, 299.81, 299.87,
    ];

    private static readonly double[] Mavro =
    [
        2.00180, 2.00170, 2.00180, 2.00190, 2.00180, 2.00170, 2.00150, 2.00140, 2.00150, 2.00150, 2.00170, 2.00180, 2.00180, 2.00190, 2.00190, 2.00210, 2.00200, 2.00160, 2.00140, 2.00130,
        2.00130, 2.00150, 2.00150, 2.00160, 2.00150, 2.00140, 2.00130, 2.00140, 2.00150, 2.00140, 2.00150, 2.00160, 2.00150, 2.00160, 2.00190, 2.00200, 2.00200, 2.00210, 2.00220, 2.00230,
        2.00240, 2.00250, 2.00270, 2.00260, 2.00260, 2.00260, 2.00270, 2.00260, 2.00250, 2.00240,
    ];

    [Fact]
    public void Michelso_and_Mavro_give_the_certified_mean_and_spread()
    {
        var michelso = Survey(Michelso);
        Assert.Equal(299.852400000000, michelso.Mean.Millimeters, 1e-12);
        Assert.Equal(0.0790105478190518, michelso.StandardDeviation.Millimeters, 1e-14);

        var mavro = Survey(Mavro);
        Assert.Equal(2.00185600000000, mavro.Mean.Millimeters, 1e-14);
        Assert.Equal(0.000429123454003053, mavro.StandardDeviation.Millimeters, 1e-15);
    }

    [Fact]
    public void The_numerical_accuracy_sets_keep_their_digits()
    {
        // NumAcc1: 10000001, 10000003, 10000002: mean 10000002, s 1. NumAcc3 and 4: 1000000.2 (10000000.2), then 500 times one
        // tenth less and one tenth more: s 0.1. In nanometres, so that they are thicknesses.
        IEnumerable<double> Alternating(double middle) => Enumerable.Range(0, 1001).Select(i => i == 0 ? middle + 0.2 : middle + (i % 2 == 1 ? 0.1 : 0.3));

        var one = Survey([10000001, 10000003, 10000002], unit: LengthUnit.Nanometer);
        Assert.Equal(10000002, one.Mean.Nanometers, 1e-8);
        Assert.Equal(1, one.StandardDeviation.Nanometers, 1e-12);
        Assert.Equal(1000000.2, Survey(Alternating(1000000), unit: LengthUnit.Nanometer).Mean.Nanometers, 1e-8);
        Assert.Equal(0.1, Survey(Alternating(1000000), unit: LengthUnit.Nanometer).StandardDeviation.Nanometers, 1e-9);
        Assert.Equal(0.1, Survey(Alternating(10000000), unit: LengthUnit.Nanometer).StandardDeviation.Nanometers, 1e-8);
    }

    [Fact]
    public void A_survey_worked_by_hand_comes_out()
    {
        // 48, 50, 52, 50, 55 mm: mean 51, s² = (9 + 1 + 1 + 1 + 16)/4 = 7, s 2.6458; t 95 % one-sided, 4 degrees 2.1318 (table):
        // bound 51 − 2.1318·2.6458/√5 = 48.478. Within 2 mm: 6 readings give 2.015·2.6458/√6 = 2.18, 7 give 1.943·… = 1.943.
        var result = Survey([48, 50, 52, 50, 55]);

        Assert.Equal(51, result.Mean.Millimeters, 1e-12);
        Assert.Equal(48, result.Minimum.Millimeters);
        Assert.Equal(55, result.Maximum.Millimeters);
        Assert.Equal(2.6458, result.StandardDeviation.Millimeters, 1e-4);
        Assert.Equal(48.478, result.LowerBoundOfMean.Millimeters, 1e-3);
        Assert.Equal(7, result.ReadingsForPrecision);
        Assert.Equal(3, result.ReadingsForArea);
        Assert.True(result.EnoughForArea);
    }

    [Theory]
    [InlineData(ThicknessTest.Mean, 51)]
    [InlineData(ThicknessTest.Minimum, 48)]
    [InlineData(ThicknessTest.LowerBoundOfMean, 48.478)]
    public void The_acceptance_test_is_named_and_its_number_given(ThicknessTest test, double millimeters)
    {
        var answer = ThicknessSurvey.Summarize([.. new[] { 48.0, 50, 52, 50, 55 }.Select(value => Length.FromMillimeters(value))], Area.FromSquareMeters(30), Settings with { Test = test });

        Assert.Equal(test, answer.Value.Test);
        Assert.Equal(millimeters, answer.Value.TestedValue.Millimeters, 1e-3);
        Assert.Equal("acceptance test", answer.Steps[^1].Name);
    }

    [Theory]
    [InlineData(30, 3)]
    [InlineData(30.1, 4)]
    [InlineData(5, 3)]
    [InlineData(101, 11)]
    public void An_area_asks_for_its_readings(double squareMeters, int readings)
    {
        var result = Survey([48, 50, 52, 50, 55], area: squareMeters);

        Assert.Equal(readings, result.ReadingsForArea);
        Assert.Equal(readings <= 5, result.EnoughForArea);
    }

    [Fact]
    public void Inches_and_order_change_nothing_and_the_bound_lies_below_the_mean()
    {
        Gen.Double[20, 120].Array[2, 30].Holds(values =>
        {
            var plain = Survey(values);
            var inches = Survey(values.Reverse().Select(value => value / 25.4), unit: LengthUnit.Inch);
            Assert.Equal(plain.LowerBoundOfMean.Millimeters, inches.LowerBoundOfMean.Millimeters, 1e-9);
            Assert.Equal(plain.ReadingsForPrecision, inches.ReadingsForPrecision);
            Assert.True(plain.LowerBoundOfMean <= plain.Mean && plain.Minimum <= plain.Mean && plain.Mean <= plain.Maximum);
        });
    }

    [Fact]
    public void Readings_without_spread_need_two_and_a_hopeless_spread_has_no_number()
    {
        Assert.Equal(2, Survey([50, 50, 50]).ReadingsForPrecision);
        Assert.Null(Survey([10, 900], Settings with { Precision = Length.FromMillimeters(1) }).ReadingsForPrecision);
    }

    [Fact]
    public void Impossible_surveys_are_refused_by_name()
    {
        string? Refused(ImmutableArray<Length> readings, ThicknessSettings settings, double area = 30) => ThicknessSurvey.Summarize(readings, Area.FromSquareMeters(area), settings).Refusal?.Input;
        ImmutableArray<Length> two = [Length.FromMillimeters(50), Length.FromMillimeters(51)];

        Assert.Equal("readings", Refused([Length.FromMillimeters(50)], Settings));
        Assert.Equal("readings", Refused(default, Settings));
        Assert.Equal("reading", Refused(two.Add(Length.FromMillimeters(-1)), Settings));
        Assert.Equal("area", Refused(two, Settings, 0));
        Assert.Equal("confidence", Refused(two, Settings with { Confidence = Ratio.FromPercent(100) }));
        Assert.Equal("precision", Refused(two, Settings with { Precision = Length.Zero }));
        Assert.Equal("area of a reading", Refused(two, Settings with { AreaPerReading = Area.Zero }));
    }
}
