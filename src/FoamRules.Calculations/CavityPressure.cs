using System.Globalization;
using FoamRules.Model;
using UnitsNet;
using UnitsNet.Units;

namespace FoamRules.Calculations;

/// <summary>Whether air can leave through a hole.</summary>
public enum VentState
{
    /// <summary>Open: air leaves.</summary>
    Open,

    /// <summary>The fill hole with the nozzle in it: it does not count as a vent.</summary>
    NozzleInHole,

    /// <summary>Foam has reached it: air no longer leaves.</summary>
    ReachedByFoam,
}

/// <summary>A hole in a cavity.</summary>
/// <param name="Area">Its free area.</param>
/// <param name="State">Whether air can leave through it.</param>
public sealed record Vent(Area Area, VentState State);

/// <summary>One point of a rise curve.</summary>
/// <param name="Time">Time from the start of mixing.</param>
/// <param name="Risen">Share of the final volume reached.</param>
public sealed record RisePoint(Duration Time, Ratio Risen);

/// <summary>Air that the growing foam drives out of a cavity.</summary>
/// <param name="Mean">Mean flow over the shot, or over the rise.</param>
/// <param name="Peak">Peak flow: size vents for this one.</param>
public sealed record VentFlow(VolumeFlow Mean, VolumeFlow Peak);

/// <summary>The vent that holds a pressure.</summary>
/// <param name="Area">Needed free area.</param>
/// <param name="Diameter">Diameter of one round hole of that area.</param>
public sealed record NeededVent(Area Area, Length Diameter);

/// <summary>Pressure in a cavity while foam rises in it: air through vents, sealed tubes, force on a panel. Air only, never foam through a vent.</summary>
public static class CavityPressure
{
    // About a third of the speed of sound: above it the air in the hole is no longer incompressible.
    private static readonly Speed FastestJet = Speed.FromMetersPerSecond(100);

    private const string FlowSource = "volume balance: air leaves at the growth of foam volume (engineering estimate; the peak factor is practice, no source)";
    private const string RiseSource = "volume balance with the sheet's rise curve; whole shot taken as mixed at once, which is the upper bound";
    private const string OrificeSource = "orifice equation (read); discharge coefficient of a sharp-edged hole from memory (ISO 5167-2)";
    private const string BoyleSource = "Boyle's and Charles's laws (worked by hand)";

    /// <summary>
    /// Air flow from the shot: mean Q = ṁ ÷ ρ_mean, peak = peak factor × Q. Use it only where the sheet gives no rise curve: the peak is several
    /// times the mean. Mass flow and mean foam density more than 0, peak factor 1 or more (2 to 3 in practice). Source: volume balance.
    /// </summary>
    public static Calculated<VentFlow> AirFlow(MassFlow shot, Density meanFoamDensity, double peakFactor)
    {
        if (Gate.First(
                Gate.Positive("mass flow of the shot", shot), Gate.Positive("mean foam density", meanFoamDensity),
                Gate.AtLeastOne("peak factor", peakFactor, "a peak is not below its mean")) is { } refusal)
            return Calculated<VentFlow>.Refuse(refusal);
        var mean = shot / meanFoamDensity;
        var peak = mean * peakFactor;
        return Calculated<VentFlow>.From(new VentFlow(mean, peak),
            Line.Of("mean air flow", "Q = ṁ ÷ ρ", mean, FlowSource,
                Line.In("ṁ", "mass flow of the shot", shot), Line.In("ρ", "mean foam density", meanFoamDensity)),
            Line.Of("peak air flow", "Q_peak = k × Q", peak, FlowSource,
                Line.In("k", "peak factor", peakFactor), Line.In("Q", "mean air flow", mean)));
    }

    /// <summary>
    /// Air flow from the sheet's rise curve: peak Q = m ÷ ρ × the steepest slope between two points, mean = m ÷ ρ × (last − first) ÷ their time.
    /// Mass and density more than 0; two or more points, times and shares rising, 0 to 100 %. Source: volume balance.
    /// </summary>
    public static Calculated<VentFlow> AirFlow(Mass shot, Density foamDensity, IReadOnlyList<RisePoint> riseCurve)
    {
        if (Gate.First(
                Gate.Positive("mass of the shot", shot), Gate.Positive("foam density", foamDensity),
                Gate.Require(IsRise(riseCurve), "rise curve", Measure.OfCount(riseCurve.Count),
                    "two or more points, each later than the one before, none lower, 0 to 100 %, rising in all", "no slope can be read from it")) is { } refusal)
            return Calculated<VentFlow>.Refuse(refusal);
        var volume = shot / foamDensity;
        var mean = Slope(riseCurve[0], riseCurve[^1]);
        var peak = riseCurve.Zip(riseCurve.Skip(1), Slope).MaxBy(flow => flow.CubicMetersPerSecond);
        return Calculated<VentFlow>.From(new VentFlow(mean, peak),
            Line.Of("foam volume", "V = m ÷ ρ", volume, "definition of density",
                Line.In("m", "mass of the shot", shot), Line.In("ρ", "foam density", foamDensity)),
            Line.Of("peak air flow", "Q_peak = V × max Δr ÷ Δt", peak, RiseSource,
                Line.In("V", "foam volume", volume), new Term("n", "points of the rise curve", Measure.OfCount(riseCurve.Count))));

        VolumeFlow Slope(RisePoint from, RisePoint to) =>
            (to.Risen.DecimalFractions - from.Risen.DecimalFractions) * volume / (to.Time - from.Time);
    }

    /// <summary>
    /// Area through which air can leave: the sum of the open vents. The fill hole does not count while the nozzle is in it, nor does a vent
    /// that foam has reached. Refused when none is open: once foam reaches the last vent the pressure jumps by orders of magnitude and no
    /// formula for air gives it. Source: geometry.
    /// </summary>
    public static Calculated<Area> OpenArea(IReadOnlyList<Vent> vents)
    {
        foreach (var vent in vents)
            if (Gate.Positive("area of a vent", vent.Area) is { } refusal)
                return Calculated<Area>.Refuse(refusal);
        var open = vents.Where(vent => vent.State == VentState.Open).ToList();
        if (open.Count == 0)
            return Calculated<Area>.Refuse("open vents", Measure.OfCount(0), "at least one that foam has not reached",
                "once foam reaches the last vent, or the only hole holds the nozzle, the pressure is no longer that of air through a hole");
        var area = Area.FromSquareMeters(open.Sum(vent => vent.Area.SquareMeters));
        return Calculated<Area>.From(area, Line.Of("open vent area", "A = Σ A of open vents", area, "geometry",
            [.. open.Select((vent, at) => Line.In("A" + (at + 1).ToString(CultureInfo.InvariantCulture), "open vent", vent.Area))]));
    }

    /// <summary>Area of a round hole: A = π/4 d². Diameter more than 0. Source: geometry.</summary>
    public static Calculated<Area> HoleArea(Length diameter)
    {
        if (Gate.Positive("hole diameter", diameter) is { } refusal)
            return Calculated<Area>.Refuse(refusal);
        var area = Math.PI / 4 * (diameter * diameter);
        return Calculated<Area>.From(area, Line.Of("hole area", "A = π/4 d²", area, "geometry", Line.In("d", "hole diameter", diameter)));
    }

    /// <summary>
    /// Back pressure of air leaving through vents: Δp = ½ ρ (Q ÷ (C_d A))², A the area of the open vents. Flow, density more than 0,
    /// 0 &lt; C_d ≤ 1; refused above 100 m/s in the hole (about 6 kPa), where air is no longer incompressible, and once foam has reached the last vent.
    /// Source: orifice equation.
    /// </summary>
    public static Calculated<Pressure> BackPressure(VolumeFlow airFlow, IReadOnlyList<Vent> vents, double dischargeCoefficient, Density airDensity)
    {
        if (Gate.First(Gate.Positive("air flow", airFlow), NotDischarge(dischargeCoefficient), Gate.Positive("air density", airDensity)) is { } refusal)
            return Calculated<Pressure>.Refuse(refusal);
        var open = OpenArea(vents);
        if (!open.HasValue)
            return Calculated<Pressure>.Refuse(open.Refusal!);
        var jet = airFlow / (dischargeCoefficient * open.Value);
        if (jet > FastestJet)
            return Calculated<Pressure>.Refuse("air speed in the vents", Measure.Of(jet), "at most 100 m/s",
                "above a third of the speed of sound the orifice equation for incompressible air does not hold: the vents are far too small");
        var pressure = Pressure.FromPascals(0.5 * airDensity.KilogramsPerCubicMeter * jet.MetersPerSecond * jet.MetersPerSecond);
        return Calculated<Pressure>.From(pressure, [.. open.Steps,
            Line.Of("air speed in the vents", "v = Q ÷ (C_d A)", jet, OrificeSource,
                Line.In("Q", "air flow", airFlow), Line.In("C_d", "discharge coefficient", dischargeCoefficient), Line.In("A", "open vent area", open.Value)),
            Line.Of("back pressure", "Δp = ½ ρ v²", pressure, OrificeSource,
                Line.In("ρ", "air density", airDensity), Line.In("v", "air speed in the vents", jet))]);
    }

    /// <summary>
    /// Vent that holds a pressure: A = (Q ÷ C_d) √(ρ ÷ (2 Δp)), and the diameter of one round hole of that area, d = √(4A ÷ π).
    /// Flow, density, pressure more than 0, 0 &lt; C_d ≤ 1, and at most 100 m/s in the hole (about 6 kPa). Source: orifice equation.
    /// </summary>
    public static Calculated<NeededVent> VentFor(VolumeFlow airFlow, Pressure allowedPressure, double dischargeCoefficient, Density airDensity)
    {
        if (Gate.First(
                Gate.Positive("air flow", airFlow), Gate.Positive("allowed pressure", allowedPressure),
                NotDischarge(dischargeCoefficient), Gate.Positive("air density", airDensity)) is { } refusal)
            return Calculated<NeededVent>.Refuse(refusal);
        var jet = Speed.FromMetersPerSecond(Math.Sqrt(2 * allowedPressure.Pascals / airDensity.KilogramsPerCubicMeter));
        if (jet > FastestJet)
            return Calculated<NeededVent>.Refuse("allowed pressure", Measure.Of(allowedPressure), "at most that of 100 m/s in the vent",
                "above a third of the speed of sound the orifice equation for incompressible air does not hold");
        var area = airFlow / jet / dischargeCoefficient;
        var diameter = Length.FromMeters(Math.Sqrt(4 * area.SquareMeters / Math.PI));
        return Calculated<NeededVent>.From(new NeededVent(area, diameter),
            Line.Of("needed vent area", "A = (Q ÷ C_d) √(ρ ÷ (2 Δp))", area, OrificeSource,
                Line.In("Q", "air flow", airFlow), Line.In("C_d", "discharge coefficient", dischargeCoefficient),
                Line.In("ρ", "air density", airDensity), Line.In("Δp", "allowed pressure", allowedPressure)),
            Line.Of("diameter of one round vent", "d = √(4A ÷ π)", diameter, "geometry", Line.In("A", "needed vent area", area)));
    }

    /// <summary>
    /// Share of a sealed tube that foam can fill: φ = 1 − (p₀ ÷ (p₀ + p_foam)) (T₁ ÷ T₀), the rest being air that is squeezed until it holds the
    /// foam; 0 where the air grows so hot that it holds the foam out. Air pressure p₀ absolute, 20 to 120 kPa; foam pressure 0 or more, above it;
    /// air temperatures −60 to 200 °C before (T₀) and when the foam stops (T₁). Source: Boyle's and Charles's laws.
    /// </summary>
    public static Calculated<Ratio> SealedFill(Pressure airPressure, Pressure foamPressure, Temperature airBefore, Temperature airAfter)
    {
        if (Gate.First(
                Gate.Require(airPressure.Kilopascals is >= 20 and <= 120, "air pressure", Measure.Of(airPressure), "20 to 120 kPa absolute", "it is the absolute air pressure at the site"),
                Gate.NotNegative("foam pressure", foamPressure),
                NotAirTemperature("air temperature before", airBefore), NotAirTemperature("air temperature after", airAfter)) is { } refusal)
            return Calculated<Ratio>.Refuse(refusal);
        var share = Ratio.FromDecimalFractions(Math.Max(0, 1 - airPressure / (airPressure + foamPressure) * (airAfter.Kelvins / airBefore.Kelvins)));
        return Calculated<Ratio>.From(share, Line.Of("share of a sealed tube that foam fills", "φ = 1 − (p₀ ÷ (p₀ + p_foam)) (T₁ ÷ T₀), not below 0", share, BoyleSource,
            Line.In("p₀", "absolute air pressure", airPressure), Line.In("p_foam", "pressure of the foam above it", foamPressure),
            Line.In("T₀", "absolute air temperature before", airBefore.ToUnit(TemperatureUnit.Kelvin)),
            Line.In("T₁", "absolute air temperature after", airAfter.ToUnit(TemperatureUnit.Kelvin))));
    }

    /// <summary>Force on a panel: F = Δp × A. Pressure and area more than 0. Source: definition of pressure.</summary>
    public static Calculated<Force> PanelForce(Pressure pressure, Area panel)
    {
        if (Gate.First(Gate.Positive("pressure", pressure), Gate.Positive("panel area", panel)) is { } refusal)
            return Calculated<Force>.Refuse(refusal);
        var force = pressure * panel;
        return Calculated<Force>.From(force, Line.Of("force on the panel", "F = Δp × A", force, "definition of pressure",
            Line.In("Δp", "pressure", pressure), Line.In("A", "panel area", panel)));
    }

    private static bool IsRise(IReadOnlyList<RisePoint> curve) =>
        curve.Count >= 2
        && curve.All(point => point.Risen.DecimalFractions is >= 0 and <= 1 && point.Time.Seconds is >= 0 and < double.PositiveInfinity)
        && curve.Zip(curve.Skip(1)).All(pair => pair.First.Time < pair.Second.Time && pair.First.Risen <= pair.Second.Risen)
        && curve[0].Risen < curve[^1].Risen;

    private static Refusal? NotDischarge(double found) =>
        Gate.Require(found is > 0 and <= 1, "discharge coefficient", Gate.Shown(found), "more than 0, at most 1", "a hole passes no more than its whole area");

    private static Refusal? NotAirTemperature(Said input, Temperature found) =>
        Gate.Require(found.DegreesCelsius is >= -60 and <= 200, input, Measure.Of(found), "−60 to 200 °C", "air in a building cavity is within it, and the gas laws hold");
}
