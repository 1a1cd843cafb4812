using System.Globalization;
using System.Xml.Linq;
using FoamRules.Calculations;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Pictures.Tests;

/// <summary>Pictures show what the calculations found, say it in words too, and are drawn to scale.</summary>
public sealed class PictureTests
{
    private static readonly ThermalProperties Foam = new(ThermalConductivity.FromWattsPerMeterKelvin(0.024), Density.FromKilogramsPerCubicMeter(32), SpecificEntropy.FromJoulesPerKilogramKelvin(1450));
    private static readonly TestShotSettings Settings = new(3, 3, Ratio.FromPercent(95), Ratio.FromPercent(20), Ratio.FromPercent(15));

    [Fact]
    public void The_heat_picture_draws_three_lines_and_the_threshold()
    {
        var svg = Read(PassHeat(DisplayUnits.Si), "heat");
        Assert.Contains("hot above 120 °C", Texts(svg));
        Assert.Contains("hottest point", Texts(svg));
        // Single 2 in pass on a back that takes no heat: about 27 min above 120 °C from 50 °C mix (handbook value, computed with air at 20 °C).
        Assert.Contains("for 27", Description(svg), StringComparison.Ordinal);
    }

    [Fact]
    public void The_heat_picture_speaks_the_units_that_are_asked_for() => Assert.Contains("hot above 248 °F", Texts(Read(PassHeat(DisplayUnits.Us), "heat-us")));

    [Fact]
    public void The_concentration_picture_draws_the_limit_and_the_times_of_coming_back()
    {
        var purge = new PurgeCase(MassConcentration.FromMilligramsPerCubicMeter(5), new EmissionSource.None(), Volume.FromCubicMeters(500), 3, [new VentilationStage(Frequency.FromCyclesPerHour(6), null)]);
        var svg = Read(CalculationPicture.Concentration(purge, MassConcentration.FromMilligramsPerCubicMeter(0.05), [(Duration.FromHours(4), "trades back")], Duration.FromHours(6)), "concentration");
        Assert.Contains("limit 0.05 mg/m³", Texts(svg));
        Assert.Contains("trades back", Texts(svg));
        // By hand: n/K = 2 per hour, ln(5/0.05) / 2 = 2.303 h.
        Assert.Contains("2.3 h", Description(svg), StringComparison.Ordinal);
    }

    [Fact]
    public void A_source_that_never_dies_away_is_told_in_words()
    {
        var purge = new PurgeCase(MassConcentration.FromMilligramsPerCubicMeter(1), new EmissionSource.Constant(MassFlow.FromGramsPerHour(1000)), Volume.FromCubicMeters(100), 1, [new VentilationStage(Frequency.FromCyclesPerHour(1), null)]);
        Assert.Contains("never", Description(Read(CalculationPicture.Concentration(purge, MassConcentration.FromMilligramsPerCubicMeter(0.05), [], Duration.FromHours(6)), "never")), StringComparison.Ordinal);
    }

    // By hand: 4/6/8 s gave 62/95/124 cm; wanted 110 cm: 7.05 s, 5.5 to 9.2 s.
    [Fact]
    public void The_test_shot_picture_gives_the_seconds_and_their_ends()
    {
        var shots = Shots((4, 62, false), (6, 95, false), (8, 124, false), (10, 130, true));
        var svg = Read(CalculationPicture.TestShots([.. shots], Length.FromCentimeters(110), Settings, DisplayUnits.Si), "shots");
        Assert.StartsWith("Aim for 7 s, between 5.5 s and 9.2 s.", Description(svg).Replace("7.1", "7", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("overflowed, left out", Texts(svg));
    }

    [Fact]
    public void What_the_calculation_refuses_is_not_drawn()
    {
        var one = CalculationPicture.TestShots([.. Shots((4, 62, false))], Length.FromCentimeters(110), Settings, DisplayUnits.Si);
        Assert.False(one.HasValue);
        Assert.NotEmpty(one.Refusal!.Allowed);
    }

    [Fact]
    public void The_column_is_drawn_to_scale()
    {
        var fill = new CavityFill
        {
            Height = Length.FromFeet(10),
            FillHoles = new HoleList { Holes = [new Hole { Diameter = Length.FromInches(0.75), Height = Length.FromFeet(5) }] },
            VentHoles = new HoleList { Holes = [new Hole { Diameter = Length.FromInches(0.5), Height = Length.FromFeet(9.8) }] },
        };
        var svg = XElement.Parse(ColumnPicture.Draw(fill, [(Length.FromFeet(2.5), "pour 1")], DisplayUnits.Us)!);
        Keep(svg.ToString(), "column");
        var circles = svg.Descendants().Where(element => element.Name.LocalName == "circle").Select(circle => Number(circle, "cy")).ToList();
        var foam = svg.Descendants().First(element => element.Name.LocalName == "rect" && (string?)element.Attribute("fill") == "#f0e6c8");
        var member = svg.Descendants().Last(element => element.Name.LocalName == "rect");
        Assert.Equal(Number(member, "y") + (Number(member, "height") / 2), circles[0], 0.1);
        Assert.True(circles[1] < circles[0]);
        Assert.Equal(0.25, Number(foam, "height") / Number(member, "height"), 0.001);
        Assert.Contains("vent 0.5 in at 9.8 ft", Texts(svg));
    }

    [Fact]
    public void A_member_without_a_height_is_not_drawn() => Assert.Null(ColumnPicture.Draw(new CavityFill(), [], DisplayUnits.Si));

    private static IEnumerable<Calculations.TestShot> Shots(params (double Seconds, double Centimeters, bool Overflowed)[] shots) =>
        shots.Select(shot => new Calculations.TestShot(Duration.FromSeconds(shot.Seconds), Length.FromCentimeters(shot.Centimeters), shot.Overflowed));

    private static Calculated<string> PassHeat(DisplayUnits units) => CalculationPicture.PassTemperatures(
        new PassHeatCase(
            [],
            null,
            new AirFilm(Temperature.FromDegreesCelsius(20), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10)),
            [new FoamPass(Length.FromInches(2), Foam, Temperature.FromDegreesCelsius(50), TemperatureDelta.FromKelvins(134), Duration.Zero)],
            Temperature.FromDegreesCelsius(120),
            Ratio.FromPercent(50),
            Duration.FromHours(2)),
        units);

    private static XElement Read(Calculated<string> picture, string name)
    {
        Assert.True(picture.HasValue, picture.Refusal?.Allowed);
        Keep(picture.Value, name);
        return XElement.Parse(picture.Value);
    }

    // For looking at them: FOAMRULES_PICTURES names a folder.
    private static void Keep(string svg, string name)
    {
        if (Environment.GetEnvironmentVariable("FOAMRULES_PICTURES") is { Length: > 0 } folder)
        {
            File.WriteAllText(Path.Combine(folder, name + ".svg"), svg);
        }
    }

    private static List<string> Texts(XElement svg) => [.. svg.Descendants().Where(element => element.Name.LocalName == "text").Select(text => text.Value.Trim('\u00a0'))];

    private static string Description(XElement svg) => svg.Descendants().Single(element => element.Name.LocalName == "desc").Value;

    private static double Number(XElement element, string name) => double.Parse(element.Attribute(name)!.Value, CultureInfo.InvariantCulture);
}
