using BenchmarkDotNet.Attributes;
using FoamRules.Calculations;
using UnitsNet;

namespace FoamRules.Benchmarks;

/// <summary>Heat in two passes on a board, followed until the foam is cold, on the usual grid: the aim is 1,000 a second or more on one core.</summary>
[MemoryDiagnoser]
public class HeatBenchmarks
{
    private static readonly ThermalProperties Foam = new(ThermalConductivity.FromWattsPerMeterKelvin(0.024), Density.FromKilogramsPerCubicMeter(32), SpecificEntropy.FromJoulesPerKilogramKelvin(1450));
    private static readonly ThermalProperties Board = new(ThermalConductivity.FromWattsPerMeterKelvin(0.13), Density.FromKilogramsPerCubicMeter(600), SpecificEntropy.FromJoulesPerKilogramKelvin(1600));

    private readonly PassHeatCase _two = new(
        [new HeatLayer("board", Length.FromMillimeters(12), Board, Temperature.FromDegreesCelsius(20))],
        null,
        new AirFilm(Temperature.FromDegreesCelsius(20), HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(10)),
        [Pass(Duration.Zero), Pass(Duration.FromMinutes(20))],
        Temperature.FromDegreesCelsius(120),
        Ratio.FromPercent(50),
        Duration.FromHours(4));

    /// <summary>One simulation of two passes of 2 in, 20 minutes apart.</summary>
    [Benchmark]
    public Duration TwoPasses() => PassHeat.Simulate(_two).Value.LongestHot;

    private static FoamPass Pass(Duration at) => new(Length.FromInches(2), Foam, Temperature.FromDegreesCelsius(50), TemperatureDelta.FromKelvins(134), at);
}
