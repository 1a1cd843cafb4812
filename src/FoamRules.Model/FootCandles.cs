using UnitsNet;

namespace FoamRules.Model;

/// <summary>Foot-candles, the one unit of the trade that UnitsNet lacks: one lumen per square foot.</summary>
public static class FootCandles
{
    /// <summary>An illuminance given in foot-candles.</summary>
    public static Illuminance From(double footCandles) => Illuminance.FromLux(footCandles / Area.FromSquareFeet(1).SquareMeters);

    /// <summary>An illuminance in foot-candles.</summary>
    public static double In(Illuminance illuminance) => illuminance.Lux * Area.FromSquareFeet(1).SquareMeters;
}
