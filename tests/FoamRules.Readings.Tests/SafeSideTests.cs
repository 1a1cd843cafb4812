using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Readings.Tests;

/// <summary>Times and masses are shown rounded so that whoever holds to what is shown holds to what was worked out.</summary>
public sealed class SafeSideTests
{
    // Tenths of a second below two minutes; above, five minutes up and tenths of a minute down.
    [Theory]
    [InlineData(13.095, 13.1, 13.0)]
    [InlineData(13.1, 13.1, 13.1)]
    [InlineData(119.95, 120, 119.9)]
    [InlineData(121, 300, 120)]
    [InlineData(300, 300, 300)]
    [InlineData(3605, 3900, 3600)]
    public void A_least_time_goes_up_and_a_greatest_time_goes_down(double seconds, double atLeast, double atMost)
    {
        var time = Measure.Of(Duration.FromSeconds(seconds));
        Assert.Equal(atLeast, ((Duration)SafeSide.AtLeast(time).Quantity!).Seconds, 1e-6);
        Assert.Equal(atMost, ((Duration)SafeSide.AtMost(time).Quantity!).Seconds, 1e-6);
    }

    [Theory]
    [InlineData(342.2222, DisplayUnits.Us, "342.23 lb", "342.22 lb")]
    [InlineData(342.22, DisplayUnits.Us, "342.22 lb", "342.22 lb")]
    [InlineData(342.2222, DisplayUnits.Si, "155.23 kg", "155.22 kg")]
    [InlineData(0.2, DisplayUnits.Si, "91 g", "90 g")]
    public void A_least_mass_goes_up_and_a_greatest_mass_goes_down_in_the_units_that_are_shown(double pounds, DisplayUnits units, string atLeast, string atMost)
    {
        var mass = Measure.Of(Mass.FromPounds(pounds));
        Assert.Equal(atLeast, MeasureText.Show(SafeSide.AtLeast(mass), units));
        Assert.Equal(atMost, MeasureText.Show(SafeSide.AtMost(mass), units));
    }

    [Theory]
    [InlineData(73.41, DisplayUnits.Si, "73.5 mm", "73.4 mm")]
    [InlineData(38.1, DisplayUnits.Us, "1.5 in", "1.5 in")]
    [InlineData(38.2, DisplayUnits.Us, "1.51 in", "1.5 in")]
    [InlineData(2004, DisplayUnits.Si, "2.01 m", "2 m")]
    public void What_is_enough_is_shown_rounded_up_and_what_is_allowed_rounded_down(double millimeters, DisplayUnits units, string atLeast, string atMost)
    {
        var length = Length.FromMillimeters(millimeters);
        Assert.Equal(atLeast, MeasureText.Show(Measure.AtLeast(length), units));
        Assert.Equal(atMost, MeasureText.Show(Measure.AtMost(length), units));
    }

    [Theory]
    [InlineData(1.6, 88.9, DisplayUnits.Us, "0.063 in", "3.5 in")]
    [InlineData(38.2, 88.8, DisplayUnits.Us, "1.51 in", "3.49 in")]
    [InlineData(38.26, 88.94, DisplayUnits.Si, "38.3 mm", "88.9 mm")]
    [InlineData(1999.96, 2000.04, DisplayUnits.Si, "2000 mm", "2 m")]
    // No hundredth of an inch lies between the two: a digit more.
    [InlineData(38.2, 38.3, DisplayUnits.Us, "1.504 in", "1.507 in")]
    [InlineData(38.22, 38.222, DisplayUnits.Si, "38.22 mm", "38.22 mm")]
    [InlineData(38.1, 38.1, DisplayUnits.Us, "1.5 in", "1.5 in")]
    public void The_ends_of_a_range_are_rounded_inwards_and_never_pass_each_other(double low, double high, DisplayUnits units, string least, string most) =>
        Assert.Equal((least, most), MeasureText.ShowRange(Length.FromMillimeters(low), Length.FromMillimeters(high), units));

    [Theory]
    [InlineData(0.2, DisplayUnits.Si, "0.2 g/h")]
    [InlineData(0.2, DisplayUnits.Us, "0.000441 lb/h")]
    [InlineData(0, DisplayUnits.Si, "0 g/s")]
    [InlineData(272160, DisplayUnits.Si, "75.6 g/s")]
    public void What_a_room_gives_off_is_not_shown_as_nothing(double gramsPerHour, DisplayUnits units, string shown) =>
        Assert.Equal(shown, MeasureText.Show(MassFlow.FromGramsPerHour(gramsPerHour), units));

    [Fact]
    public void A_count_stays_as_it_is() => Assert.Equal(Measure.OfCount(3), SafeSide.AtMost(Measure.OfCount(3)));
}
