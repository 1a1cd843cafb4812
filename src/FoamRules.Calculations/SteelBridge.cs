using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>Insulation wrapped around a length of steel, from the envelope on.</summary>
/// <param name="Along">Wrapped length, above 0 and at most the exposed length.</param>
/// <param name="Thickness">Thickness of the wrap, above 0.</param>
/// <param name="Conductivity">Its conductivity, above 0.</param>
public sealed record SteelWrap(Length Along, Length Thickness, ThermalConductivity Conductivity);

/// <summary>The steel on one side of the envelope.</summary>
/// <param name="Air">Air temperature there.</param>
/// <param name="Film">Surface coefficient of the bare steel, above 0.</param>
/// <param name="Perimeter">Perimeter in that air, above 0.</param>
/// <param name="Exposed">Length in that air, above 0; no heat through the far end.</param>
/// <param name="Wrap">Wrap next to the envelope, or null.</param>
public sealed record SteelSide(Temperature Air, HeatTransferCoefficient Film, Length Perimeter, Length Exposed, SteelWrap? Wrap = null);

/// <summary>Temperatures of steel that goes through the envelope.</summary>
/// <param name="InsideFace">Steel at the inside face of the insulation: its coldest point inside; under the wrap, where there is one.</param>
/// <param name="BareInside">Coldest bare steel inside: at the end of the wrap, or the inside face without one.</param>
/// <param name="OutsideFace">Steel at the outside face of the insulation.</param>
/// <param name="Heat">Heat that flows out along the steel.</param>
public sealed record SteelBridgeResult(Temperature InsideFace, Temperature BareInside, Temperature OutsideFace, Power Heat);

/// <summary>How far a wrap has to reach.</summary>
/// <param name="Along">The wrapped length.</param>
/// <param name="Reaches">True where it is enough; false where the whole exposed length is not.</param>
/// <param name="With">The bridge with that wrap.</param>
public sealed record WrapNeeded(Length Along, bool Reaches, SteelBridgeResult With);

/// <summary>
/// Calculation 4.16: a steel member through an insulated envelope, as a fin on each side of a resistance.
/// Y = √(hPkA) tanh mL; T_in = T_i − (T_i − T_e)(1/Y_i)/(1/Y_i + L_ins/(kA) + 1/Y_e). A wrap of length w:
/// Y = Y₁(Y₂ + Y₁ tanh m₁w)/(Y₁ + Y₂ tanh m₁w) with h₁ = 1/(1/h + d/λ), Y₁ = √(h₁PkA), Y₂ the bare rest. A wrap on the warm side
/// makes the steel under it colder: only where it is vapour-tight and long enough; the cold side comes first. Foam inside the
/// section carries next to nothing beside the steel and does not cure the bridge.
/// Range: bar thin beside its length; nothing lost sideways inside the insulation; the wrap taken as flat.
/// Source: fin equation (Incropera table 3.4, from memory, high), put together in series (derived; checked numerically in the tests).
/// </summary>
public static class SteelBridge
{
    private const string Source = "fins in series with the steel in the insulation (derived from Incropera table 3.4, from memory, high)";

    /// <summary>The temperatures.</summary>
    /// <param name="crossSection">Steel area that carries heat, above 0.</param>
    /// <param name="conductivity">Conductivity of the steel, above 0.</param>
    /// <param name="inInsulation">Length within the insulation, above 0.</param>
    /// <param name="inside">The warm side.</param>
    /// <param name="outside">The cold side.</param>
    public static Calculated<SteelBridgeResult> Temperatures(
        Area crossSection, ThermalConductivity conductivity, Length inInsulation, SteelSide inside, SteelSide outside)
    {
        var refusal = Bad(crossSection, conductivity, "inside", inside) ?? Bad(crossSection, conductivity, "outside", outside)
            ?? Gate.Between("length within the insulation", inInsulation, inInsulation.Meters, 1e-4, 100, "0.1 mm to 100 m", "the envelope has a thickness");
        if (refusal is not null)
            return Calculated<SteelBridgeResult>.Refuse(refusal);

        var (warm, cold) = (Admittance(crossSection, conductivity, inside), Admittance(crossSection, conductivity, outside));
        var between = inInsulation.Meters / (conductivity.WattsPerMeterKelvin * crossSection.SquareMeters);
        var (ti, te) = (inside.Air.Kelvins, outside.Air.Kelvins);
        var heat = (ti - te) / (1 / warm.Y + between + 1 / cold.Y);
        var face = ti - heat / warm.Y;
        var result = new SteelBridgeResult(
            Temperature.FromKelvins(face), Temperature.FromKelvins(ti - (ti - face) * warm.LeftAtEndOfWrap), Temperature.FromKelvins(te + heat / cold.Y), Power.FromWatts(heat));
        return Calculated<SteelBridgeResult>.From(result,
            Of("inside fin", Formula(inside), Measure.OfFactor(warm.Y), Source, In("h", "surface coefficient", inside.Film), In("P", "perimeter", inside.Perimeter), In("L", "exposed length", inside.Exposed), In("k", "conductivity of the steel", conductivity), In("A", "steel area", crossSection)),
            Of("outside fin", Formula(outside), Measure.OfFactor(cold.Y), Source, In("h", "surface coefficient", outside.Film), In("P", "perimeter", outside.Perimeter), In("L", "exposed length", outside.Exposed)),
            Of("steel at the inside face", "T_in = T_i − (T_i − T_e)(1/Y_i)/(1/Y_i + L_ins/(k A) + 1/Y_e)", result.InsideFace, Source, In("T_i", "inside air", inside.Air), In("T_e", "outside air", outside.Air), In("L_ins", "length within the insulation", inInsulation)),
            Of("coldest bare steel inside", "T = T_i − (T_i − T_in)/(cosh m₁w + (Y₂/Y₁) sinh m₁w)", result.BareInside, Source));
    }

    /// <summary>
    /// The least wrapped length of one side that keeps the judged steel inside at a temperature; the whole exposed length where
    /// even that does not.
    /// </summary>
    /// <param name="bridge">The bridge for a wrapped length of that side.</param>
    /// <param name="exposed">The exposed length.</param>
    /// <param name="judged">Which temperature is judged.</param>
    /// <param name="least">The temperature to keep.</param>
    /// <remarks>A longer wrap never makes the judged steel colder: the tests hold it to that.</remarks>
    public static Calculated<WrapNeeded> LeastWrap(
        Func<Length, Calculated<SteelBridgeResult>> bridge, Length exposed, Func<SteelBridgeResult, Temperature> judged, Temperature least)
    {
        var whole = bridge(exposed);
        if (!whole.HasValue)
            return Calculated<WrapNeeded>.Refuse(whole.Refusal!);
        if (judged(whole.Value) < least)
            return Calculated<WrapNeeded>.From(new WrapNeeded(exposed, false, whole.Value), whole.Steps);
        var along = Length.FromMeters(Bracket.FirstAfter(
            meters => bridge(Length.FromMeters(meters)) is not { HasValue: true } one || judged(one.Value) < least, 0, exposed.Meters));
        var with = bridge(along);
        return with.HasValue
            ? Calculated<WrapNeeded>.From(new WrapNeeded(along, true, with.Value), with.Steps)
            : Calculated<WrapNeeded>.Refuse(with.Refusal!);
    }

    private static string Formula(SteelSide side) => side.Wrap is null
        ? "Y = √(h P k A) tanh(m L), W/K"
        : "Y = Y₁(Y₂ + Y₁ tanh m₁w)/(Y₁ + Y₂ tanh m₁w), W/K, h₁ = 1/(1/h + d/λ)";

    private static (double Y, double LeftAtEndOfWrap) Admittance(Area area, ThermalConductivity k, SteelSide side)
    {
        var bare = new FinBar(area, side.Perimeter, k, side.Film);
        if (side.Wrap is not { } wrap)
            return (bare.Admittance * Math.Tanh(bare.Slope * side.Exposed.Meters), 1);

        var through = 1 / (1 / side.Film.WattsPerSquareMeterKelvin + wrap.Thickness.Meters / wrap.Conductivity.WattsPerMeterKelvin);
        var wrapped = bare with { Film = HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(through) };
        var rest = bare.Admittance * Math.Tanh(bare.Slope * (side.Exposed.Meters - wrap.Along.Meters));
        var (own, mw) = (wrapped.Admittance, wrapped.Slope * wrap.Along.Meters);
        var tanh = Math.Tanh(mw);
        return (own * (rest + own * tanh) / (own + rest * tanh), 1 / (Math.Cosh(mw) + rest / own * Math.Sinh(mw)));
    }

    private static Refusal? Bad(Area area, ThermalConductivity k, Said name, SteelSide side)
    {
        var bad = new FinBar(area, side.Perimeter, k, side.Film).Bad()
            ?? Gate.Between($"exposed length {name}", side.Exposed, side.Exposed.Meters, 1e-4, 1e4, "0.1 mm to 10 km", "steel ending in the insulation is no bridge through it")
            ?? Gate.Between($"air {name}", side.Air, side.Air.DegreesCelsius, -100, 200, "−100 to 200 °C", "a climate or a process");
        if (bad is null && side.Wrap is { } wrap)
        {
            bad = Gate.Inside($"wrapped length {name}", wrap.Along, wrap.Along.Meters, 0, side.Exposed.Meters * (1 + 1e-12), "above 0 and at most the exposed length", "it lies on the exposed steel")
                ?? Gate.Inside($"thickness of the wrap {name}", wrap.Thickness, wrap.Thickness.Meters, 0, 10, "above 0 and below 10 m", "a wrap insulates")
                ?? Gate.Between($"conductivity of the wrap {name}", wrap.Conductivity, wrap.Conductivity.WattsPerMeterKelvin, 0.0001, 5000, "0.0001 to 5000 W/(m K)", "no material lies outside");
        }

        return bad;
    }
}
