using CsCheck;
using UnitsNet;

namespace FoamRules.Calculations.Tests;

/// <summary>Whatever finite numbers come in, the answer is a value or a refusal, never an exception.</summary>
public class NeverThrowTests
{
    // Magnitudes from 1e-30 to 1e30 of either sign, zero, and ordinary ones.
    private static readonly Gen<double> Wild = Gen.OneOf(
        Gen.Select(Gen.Double[-30, 30], Gen.Bool, (power, negative) => (negative ? -1 : 1) * Math.Pow(10, power)), Gen.Const(0.0), Gen.Double[0.01, 1], Gen.Double[1, 100], Gen.Double[1, 100]);

    private static readonly Gen<double[]> Many = Wild.Array[12];

    private static ThermalProperties Material(double[] v) => new(
        ThermalConductivity.FromWattsPerMeterKelvin(v[0]), Density.FromKilogramsPerCubicMeter(v[1]), SpecificEntropy.FromJoulesPerKilogramKelvin(20 * v[2]));

    [Fact]
    public void Heat_in_passes_and_pours()
    {
        var (values, refusals) = (0, 0);
        Many.Holds(v =>
        {
            var air = new AirFilm(Temperature.FromDegreesCelsius(v[3]), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(v[4]));
            var pass = new FoamPass(Length.FromCentimeters(v[5]), Material(v), Temperature.FromDegreesCelsius(v[6]), TemperatureDelta.FromKelvins(v[7]), Duration.FromMinutes(v[8]), Duration.FromSeconds(v[9]));
            var plan = PassHeat.Simulate(new PassHeatCase([], null, air, [pass], Temperature.FromDegreesCelsius(v[10]), Ratio.FromPercent(v[11]), Duration.FromHours(v[8])));
            var pour = PourHeat.Cool(new PourHeatCase(
                new PourSection.Rectangular(Length.FromCentimeters(v[5]), Length.FromCentimeters(v[8])), Length.FromMeters(v[9]), Material(v), pass.Mix, pass.AdiabaticRise, air.Air, air.Film, null,
                Temperature.FromDegreesCelsius(v[10]), Ratio.FromPercent(v[11])));
            values += (plan.HasValue ? 1 : 0) + (pour.HasValue ? 1 : 0);
            refusals += (plan.HasValue ? 0 : 1) + (pour.HasValue ? 0 : 1);
        }, 3000);

        Assert.True(values > 10 && refusals > 10);
    }

    [Fact]
    public void Fins_walls_and_shots()
    {
        var (values, refusals) = (0, 0);
        void Seen(bool hasValue) => (values, refusals) = hasValue ? (values + 1, refusals) : (values, refusals + 1);
        Many.Holds(v =>
        {
            var bar = new FinBar(Area.FromSquareCentimeters(v[0]), Length.FromCentimeters(v[1]), ThermalConductivity.FromWattsPerMeterKelvin(v[2]), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(v[3]));
            Seen(Fin.FreeTip(bar, Length.FromCentimeters(v[4]), Temperature.FromDegreesCelsius(v[5]), Temperature.FromDegreesCelsius(v[6])).HasValue);
            Seen(Fin.HeldTip(bar, Length.FromCentimeters(v[4]), Temperature.FromDegreesCelsius(v[5]), Temperature.FromDegreesCelsius(v[7]), Temperature.FromDegreesCelsius(v[6])).HasValue);
            var side = new SteelSide(Temperature.FromDegreesCelsius(v[5]), bar.Film, bar.Perimeter, Length.FromCentimeters(v[4]), new SteelWrap(Length.FromCentimeters(v[8]), Length.FromCentimeters(v[9]), bar.Conductivity));
            Seen(SteelBridge.Temperatures(bar.CrossSection, bar.Conductivity, Length.FromCentimeters(v[10]), side, side with { Air = Temperature.FromDegreesCelsius(v[6]) }).HasValue);
            var layer = Layers.Layer("layer", Length.FromCentimeters(v[0]), bar.Conductivity, v[1]);
            Seen(layer.HasValue && Glaser.Steady([layer.Value], new SurfaceResistances(ThermalResistance.FromSquareMeterKelvinsPerWatt(v[2]), ThermalResistance.FromSquareMeterKelvinsPerWatt(v[3])),
                new WallClimate(Temperature.FromDegreesCelsius(v[4]), Ratio.FromPercent(v[5]), Temperature.FromDegreesCelsius(v[6]), Ratio.FromPercent(v[7]))).HasValue);
            var shots = TestShots.TimeFor(
                Length.FromCentimeters(v[0]),
                [new(Duration.FromSeconds(v[1]), Length.FromCentimeters(v[2])), new(Duration.FromSeconds(v[3]), Length.FromCentimeters(v[4])), new(Duration.FromSeconds(v[5]), Length.FromCentimeters(v[6]), false, v[7])],
                new TestShotSettings(3, 2, Ratio.FromPercent(v[8]), Ratio.FromPercent(v[9]), Ratio.FromPercent(v[10])), v[11] > 50 ? Ratio.FromPercent(v[11]) : null);
            Seen(shots.HasValue);
        }, 3000);

        Assert.True(values > 10 && refusals > 10);
    }
}
