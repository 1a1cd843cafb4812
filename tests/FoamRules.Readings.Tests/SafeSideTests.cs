using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Readings.Tests;

/// <summary>Times are shown rounded so that whoever holds to what is shown holds to what was worked out.</summary>
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

    [Fact]
    public void Other_values_stay_as_they_are()
    {
        var length = Measure.Of(Length.FromInches(1.234));
        Assert.Equal(length, SafeSide.AtLeast(length));
        Assert.Equal(Measure.OfCount(3), SafeSide.AtMost(Measure.OfCount(3)));
    }
}
