using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>The mass for one compartment. Too little leaves a void, too much presses on the walls: a shot has two unsafe sides.</summary>
/// <param name="Low">Least mass: fills the largest likely void.</param>
/// <param name="Aim">The middle, as far from one unsafe side as from the other.</param>
/// <param name="High">Most mass: the overpack limit on the smallest likely void.</param>
public sealed record FillMassRange(Mass Low, Mass Aim, Mass High);

/// <summary>The seconds of one shot.</summary>
/// <param name="Low">Seconds for the least mass.</param>
/// <param name="Aim">Seconds for the mass aimed at.</param>
/// <param name="High">Seconds for the most mass.</param>
public sealed record ShotSeconds(Duration Low, Duration Aim, Duration High);

/// <summary>One shot weighed to find the machine's output.</summary>
/// <param name="Time">How long the trigger was open.</param>
/// <param name="Mass">What came out.</param>
public sealed record WeighedShot(Duration Time, Mass Mass);

/// <summary>What a machine puts out: m = rate × (t − lag).</summary>
/// <param name="Rate">Mass flow once it runs.</param>
/// <param name="Lag">Time after the trigger opens before foam comes.</param>
public sealed record Output(MassFlow Rate, Duration Lag);

/// <summary>How much to pour into a compartment and for how long.</summary>
public static class FillMass
{
    // ISO 2533 / US Standard Atmosphere 1976, layer up to 11 km.
    private const double SeaLevelPascals = 101_325;
    private const double SeaLevelKelvin = 288.15;
    private const double LapseKelvinPerMetre = 0.0065;
    private const double StandardGravity = 9.80665;
    private const double SpecificGasConstantOfAir = 287.05287;

    private const string AtmosphereSource = "ISO 2533:1975 standard atmosphere, layer up to 11 km (from memory, high confidence)";
    private const string FillSource = "polyurethane moulding practice: minimum fill mass, overpack (read in a moulding patent; flow factor from test shots)";
    private const string PackingSource = "polyurethane moulding practice: definitions of overpack and packing factor (read in a moulding patent)";
    private const string SpreadSource = "definition of the standard deviation; how many of them is the rule set's choice";
    private const string OutputSource = "steady output after a lag (mass balance)";

    /// <summary>Void volume of a compartment of constant section: V = A × L. Both more than 0. Source: geometry.</summary>
    public static Calculated<Volume> VoidVolume(Area voidArea, Length length)
    {
        if (Gate.First(Gate.Positive("void area", voidArea), Gate.Positive("compartment length", length)) is { } refusal)
            return Calculated<Volume>.Refuse(refusal);
        var volume = voidArea * length;
        return Calculated<Volume>.From(volume, Line.Of("void volume", "V = A × L", volume, "geometry",
            Line.In("A", "void area", voidArea), Line.In("L", "compartment length", length)));
    }

    /// <summary>Void volume of a box such as a stud bay: V = w × d × h. All more than 0. Source: geometry.</summary>
    public static Calculated<Volume> VoidVolume(Length width, Length depth, Length height)
    {
        if (Gate.First(Gate.Positive("width", width), Gate.Positive("depth", depth), Gate.Positive("height", height)) is { } refusal)
            return Calculated<Volume>.Refuse(refusal);
        var volume = width * depth * height;
        return Calculated<Volume>.From(volume, Line.Of("void volume", "V = w × d × h", volume, "geometry",
            Line.In("w", "width", width), Line.In("d", "depth", depth), Line.In("h", "height", height)));
    }

    /// <summary>
    /// Standard pressure at an altitude: p = p₀ (1 − L h ÷ T₀)^(g ÷ (R L)), with p₀ = 101,325 Pa, T₀ = 288.15 K, L = 0.0065 K/m,
    /// g = 9.80665 m/s², R = 287.05287 J/(kg K). Range −2,000 to 11,000 m. Source: ISO 2533.
    /// </summary>
    public static Calculated<Pressure> StandardPressure(Length altitude)
    {
        if (Gate.Require(altitude.Meters is >= -2_000 and <= 11_000, "altitude", Measure.Of(altitude), "−2,000 to 11,000 m",
                "the lapse rate holds in the lowest layer of the standard atmosphere only") is { } refusal)
            return Calculated<Pressure>.Refuse(refusal);
        var pressure = Pressure.FromPascals(SeaLevelPascals * Math.Pow(
            1 - LapseKelvinPerMetre * altitude.Meters / SeaLevelKelvin, StandardGravity / (SpecificGasConstantOfAir * LapseKelvinPerMetre)));
        return Calculated<Pressure>.From(pressure, Line.Of("standard pressure at the site", "p = p₀ (1 − 0.0065 h ÷ 288.15)^5.25588, h in m", pressure, AtmosphereSource,
            Line.In("p₀", "standard pressure at sea level", Pressure.FromPascals(SeaLevelPascals)), Line.In("h", "altitude", altitude)));
    }

    /// <summary>
    /// Free-rise density at the site: ρ_site = ρ_sheet × p_site ÷ p_sheet: the gas in the cells grows as the air gets thinner.
    /// Density more than 0; pressures 20 to 120 kPa (from 11,000 m up to below sea level). Source: Boyle's law; engineering estimate.
    /// </summary>
    public static Calculated<Density> SiteFreeRiseDensity(Density sheetDensity, Pressure sitePressure, Pressure sheetPressure)
    {
        if (Gate.First(
                Gate.Positive("free-rise density on the sheet", sheetDensity),
                NotAirPressure("air pressure at the site", sitePressure),
                NotAirPressure("air pressure the sheet's density was measured at", sheetPressure)) is { } refusal)
            return Calculated<Density>.Refuse(refusal);
        var density = sitePressure / sheetPressure * sheetDensity;
        return Calculated<Density>.From(density, Line.Of("free-rise density at the site", "ρ_site = ρ_sheet × p_site ÷ p_sheet", density, "Boyle's law (engineering estimate)",
            Line.In("ρ_sheet", "free-rise density on the sheet", sheetDensity),
            Line.In("p_site", "air pressure at the site", sitePressure),
            Line.In("p_sheet", "air pressure the sheet's density was measured at", sheetPressure)));
    }

    /// <summary>
    /// Minimum fill mass: m_min = V × ρ × f, ρ the free-rise density at the site and f the flow factor (≥ 1, from test shots: foam
    /// that must flow, or that touches cold steel, ends denser). Volume and density more than 0. Source: moulding practice.
    /// </summary>
    public static Calculated<Mass> MinimumFill(Volume voidVolume, Density siteFreeRiseDensity, double flowFactor)
    {
        if (Gate.First(
                Gate.Positive("void volume", voidVolume),
                Gate.Positive("free-rise density at the site", siteFreeRiseDensity),
                Gate.AtLeastOne("flow factor", flowFactor, "foam that flows never ends lighter than foam that rises freely")) is { } refusal)
            return Calculated<Mass>.Refuse(refusal);
        var mass = flowFactor * (voidVolume * siteFreeRiseDensity);
        return Calculated<Mass>.From(mass, Line.Of("minimum fill mass", "m_min = V × ρ × f", mass, FillSource,
            Line.In("V", "void volume", voidVolume), Line.In("ρ", "free-rise density at the site", siteFreeRiseDensity), Line.In("f", "flow factor", flowFactor)));
    }

    /// <summary>
    /// The mass for one compartment: low = minimum fill of the largest likely void; high = minimum fill of the smallest likely
    /// void × (1 + overpack limit); aim = the middle of the two. Range: largest void ≥ smallest, overpack limit 0 to 100 %, and low ≤ high:
    /// where the voids differ by more than the overpack limit no mass is safe on both sides. Source: moulding practice.
    /// </summary>
    public static Calculated<FillMassRange> ForCompartment(Volume smallestVoid, Volume largestVoid, Density siteFreeRiseDensity, double flowFactor, Ratio overpackLimit)
    {
        if (Gate.First(
                Gate.Positive("smallest likely void", smallestVoid),
                Gate.Positive("largest likely void", largestVoid),
                Gate.Require(largestVoid >= smallestVoid, "largest likely void", Measure.Of(largestVoid), "not smaller than the smallest likely void", "the two are swapped"),
                Gate.Require(overpackLimit.DecimalFractions is >= 0 and <= 1, "overpack limit", Measure.Of(overpackLimit), "0 to 100 %",
                    "it is the share above minimum fill, not the whole in percent of it")) is { } refusal)
            return Calculated<FillMassRange>.Refuse(refusal);
        var least = MinimumFill(largestVoid, siteFreeRiseDensity, flowFactor);
        if (!least.HasValue)
            return Calculated<FillMassRange>.Refuse(least.Refusal!);
        var smallest = MinimumFill(smallestVoid, siteFreeRiseDensity, flowFactor);
        var low = least.Value;
        var high = (1 + overpackLimit.DecimalFractions) * smallest.Value;
        if (low > high)
            return Calculated<FillMassRange>.Refuse("overpack limit", Measure.Of(overpackLimit), "at least (largest ÷ smallest likely void) − 1",
                "the mass that fills the largest likely void would overfill the smallest: measure the void first");
        var aim = (low + high) / 2;
        return Calculated<FillMassRange>.From(new FillMassRange(low, aim, high),
            [.. least.Steps, .. smallest.Steps,
                Line.Of("overfill limit", "m_high = m_min (1 + o)", high, FillSource,
                    Line.In("m_min", "minimum fill mass of the smallest likely void", smallest.Value), Line.In("o", "overpack limit", overpackLimit)),
                Line.Of("mass to aim at", "m_aim = (m_low + m_high) ÷ 2", aim, "the middle of two unsafe sides (project choice)",
                    Line.In("m_low", "minimum fill mass of the largest likely void", low), Line.In("m_high", "overfill limit", high))]);
    }

    /// <summary>
    /// Where the mass of a planned shot may lie: m (1 − k s) and m (1 + k s), s the standard deviation of a shot's mass as a share of it
    /// and k how many of them the ends lie away. Range: mass more than 0, s and k 0 or more, k × s below 1. Source: definition of the standard deviation.
    /// </summary>
    public static Calculated<FillMassRange> WithSpread(Mass planned, Ratio spread, double ends)
    {
        if (Gate.First(Gate.Positive("planned mass", planned), NotSpread(spread, ends)) is { } refusal)
            return Calculated<FillMassRange>.Refuse(refusal);
        var away = ends * spread.DecimalFractions;
        var (low, high) = (planned * (1 - away), planned * (1 + away));
        return Calculated<FillMassRange>.From(new FillMassRange(low, planned, high),
            Line.Of("low end of the planned mass", "m_low = m (1 − k s)", low, SpreadSource, SpreadTerms(planned, spread, ends)),
            Line.Of("high end of the planned mass", "m_high = m (1 + k s)", high, SpreadSource, SpreadTerms(planned, spread, ends)));
    }

    /// <summary>
    /// Masses to plan so that both ends of what may come out stay inside a range: low ÷ (1 − k s) to high ÷ (1 + k s), aim the middle.
    /// The inverse of <see cref="WithSpread"/>. Refused where the spread is wider than the range. Source: definition of the standard deviation.
    /// </summary>
    public static Calculated<FillMassRange> ToPlan(FillMassRange masses, Ratio spread, double ends)
    {
        if (Gate.First(Gate.Positive("least mass", masses.Low), Gate.Positive("most mass", masses.High), NotSpread(spread, ends)) is { } refusal)
            return Calculated<FillMassRange>.Refuse(refusal);
        var away = ends * spread.DecimalFractions;
        var (low, high) = (masses.Low / (1 - away), masses.High / (1 + away));
        if (low > high)
            return Calculated<FillMassRange>.Refuse("spread of the output", Measure.Of(spread), "narrower than the range between too little and too much",
                "a shot that surely fills the largest void would overfill the smallest one");
        var aim = (low + high) / 2;
        return Calculated<FillMassRange>.From(new FillMassRange(low, aim, high),
            Line.Of("least mass to plan", "m ÷ (1 − k s)", low, SpreadSource, SpreadTerms(masses.Low, spread, ends)),
            Line.Of("most mass to plan", "m ÷ (1 + k s)", high, SpreadSource, SpreadTerms(masses.High, spread, ends)));
    }

    /// <summary>
    /// Rise of a pour, read at minimum-fill density: h = m ÷ (A × ρ × f). Mass, area and density more than 0, flow factor 1 or more. Source: geometry.
    /// </summary>
    public static Calculated<Length> Rise(Mass pour, Area voidArea, Density siteFreeRiseDensity, double flowFactor)
    {
        if (Gate.First(
                Gate.Positive("mass of the pour", pour), Gate.Positive("void area", voidArea),
                Gate.Positive("free-rise density at the site", siteFreeRiseDensity),
                Gate.AtLeastOne("flow factor", flowFactor, "foam that flows never ends lighter than foam that rises freely")) is { } refusal)
            return Calculated<Length>.Refuse(refusal);
        var rise = pour / siteFreeRiseDensity / voidArea / flowFactor;
        return Calculated<Length>.From(rise, Line.Of("rise of the pour", "h = m ÷ (A × ρ × f)", rise, FillSource,
            Line.In("m", "mass of the pour", pour), Line.In("A", "void area", voidArea),
            Line.In("ρ", "free-rise density at the site", siteFreeRiseDensity), Line.In("f", "flow factor", flowFactor)));
    }

    /// <summary>
    /// Overpack, on minimum fill: o = m ÷ m_min − 1; negative when the void is not filled. Moulding texts also print 100 × m ÷ m_min, so that
    /// their 110 % is 10 % here. Masses more than 0. Source: moulding practice. Not the <see cref="PackingFactor"/>, whose base is free rise.
    /// </summary>
    public static Calculated<Ratio> Overpack(Mass poured, Mass minimumFill)
    {
        if (Gate.First(Gate.Positive("mass poured", poured), Gate.Positive("minimum fill mass", minimumFill)) is { } refusal)
            return Calculated<Ratio>.Refuse(refusal);
        var overpack = Ratio.FromDecimalFractions(poured / minimumFill - 1);
        return Calculated<Ratio>.From(overpack, Line.Of("overpack", "o = m ÷ m_min − 1", overpack, PackingSource,
            Line.In("m", "mass poured", poured), Line.In("m_min", "minimum fill mass", minimumFill)));
    }

    /// <summary>
    /// Packing factor, on free rise: (m ÷ V) ÷ ρ, the moulded density over the free-rise density. All more than 0.
    /// Source: moulding practice. Not the <see cref="Overpack"/>, whose base is minimum fill.
    /// </summary>
    public static Calculated<Scalar> PackingFactor(Mass poured, Volume voidVolume, Density siteFreeRiseDensity)
    {
        if (Gate.First(
                Gate.Positive("mass poured", poured), Gate.Positive("void volume", voidVolume),
                Gate.Positive("free-rise density at the site", siteFreeRiseDensity)) is { } refusal)
            return Calculated<Scalar>.Refuse(refusal);
        var factor = Scalar.FromAmount(poured / voidVolume / siteFreeRiseDensity);
        return Calculated<Scalar>.From(factor, Line.Of("packing factor", "(m ÷ V) ÷ ρ", factor, PackingSource,
            Line.In("m", "mass poured", poured), Line.In("V", "void volume", voidVolume), Line.In("ρ", "free-rise density at the site", siteFreeRiseDensity)));
    }

    /// <summary>Seconds for a mass: t = t_lag + m ÷ rate. Mass and rate more than 0, lag 0 or more. Source: mass balance.</summary>
    public static Calculated<Duration> SecondsFor(Mass mass, Output output)
    {
        if (Gate.First(Gate.Positive("mass", mass), NotOutput(output)) is { } refusal)
            return Calculated<Duration>.Refuse(refusal);
        var time = Duration.FromSeconds(output.Lag.Seconds + mass.Kilograms / output.Rate.KilogramsPerSecond);
        return Calculated<Duration>.From(time, Line.Of("seconds of shot", "t = t_lag + m ÷ rate", time, OutputSource,
            Line.In("m", "mass", mass), Line.In("rate", "output", output.Rate), Line.In("t_lag", "lag", output.Lag)));
    }

    /// <summary>Mass from seconds: m = rate × (t − t_lag). Range: t longer than the lag, before which nothing comes; rate more than 0. Source: mass balance.</summary>
    public static Calculated<Mass> MassFrom(Duration time, Output output)
    {
        if (Gate.First(
                NotOutput(output), Gate.Positive("time", time),
                Gate.Require(time > output.Lag, "time", Measure.Of(time), "longer than the lag", "no foam has come yet")) is { } refusal)
            return Calculated<Mass>.Refuse(refusal);
        var mass = output.Rate * (time - output.Lag);
        return Calculated<Mass>.From(mass, Line.Of("mass of shot", "m = rate × (t − t_lag)", mass, OutputSource,
            Line.In("rate", "output", output.Rate), Line.In("t", "time", time), Line.In("t_lag", "lag", output.Lag)));
    }

    /// <summary>Seconds for the low, aim and high mass of a compartment, as <see cref="SecondsFor(Mass, Output)"/> gives them. Source: mass balance.</summary>
    public static Calculated<ShotSeconds> SecondsFor(FillMassRange masses, Output output)
    {
        var low = SecondsFor(masses.Low, output);
        var aim = SecondsFor(masses.Aim, output);
        var high = SecondsFor(masses.High, output);
        if (Gate.First(low.Refusal, aim.Refusal, high.Refusal) is { } refusal)
            return Calculated<ShotSeconds>.Refuse(refusal);
        return Calculated<ShotSeconds>.From(new ShotSeconds(low.Value, aim.Value, high.Value), [.. low.Steps, .. aim.Steps, .. high.Steps]);
    }

    /// <summary>
    /// Output and lag from weighed shots by least squares of m on t: rate = Σ(t − t̄)(m − m̄) ÷ Σ(t − t̄)², t_lag = t̄ − m̄ ÷ rate.
    /// Range: shots of at least two different durations, a positive rate and a lag of 0 or more. A single duration cannot tell lag from rate,
    /// and 0.3 s of lag is 10 % of a 3 s shot. Source: ordinary least squares.
    /// </summary>
    public static Calculated<Output> OutputFrom(IReadOnlyList<WeighedShot> shots)
    {
        foreach (var shot in shots)
            if (Gate.First(Gate.Positive("time of a weighed shot", shot.Time), Gate.Positive("mass of a weighed shot", shot.Mass)) is { } refusal)
                return Calculated<Output>.Refuse(refusal);
        if (shots.Select(shot => shot.Time.Seconds).Distinct().Count() < 2)
            return Calculated<Output>.Refuse("weighed shots", Measure.OfCount(shots.Count), "of two or more different durations",
                "one duration cannot tell the lag from the rate");
        var meanTime = shots.Average(shot => shot.Time.Seconds);
        var meanMass = shots.Average(shot => shot.Mass.Kilograms);
        var rate = MassFlow.FromKilogramsPerSecond(
            shots.Sum(shot => (shot.Time.Seconds - meanTime) * (shot.Mass.Kilograms - meanMass)) / shots.Sum(shot => Math.Pow(shot.Time.Seconds - meanTime, 2)));
        if (Gate.Positive("output", rate, "longer shots weighed no more than shorter ones: weigh again") is { } notRate)
            return Calculated<Output>.Refuse(notRate);
        var lag = Duration.FromSeconds(meanTime - meanMass / rate.KilogramsPerSecond);
        // Shots on a line through zero give a lag of some 1e-16 s of either sign.
        lag = Math.Abs(lag.Seconds) < 1e-9 * meanTime ? Duration.Zero : lag;
        if (Gate.NotNegative("lag", lag, "foam cannot come before the trigger opens: weigh shots of more different durations, or enter the output with no lag") is { } notLag)
            return Calculated<Output>.Refuse(notLag);
        return Calculated<Output>.From(new Output(rate, lag),
            Line.Of("output", "rate = Σ(t − t̄)(m − m̄) ÷ Σ(t − t̄)²", rate, "ordinary least squares",
                new Term("n", "weighed shots", Measure.OfCount(shots.Count))),
            Line.Of("lag", "t_lag = t̄ − m̄ ÷ rate", lag, "ordinary least squares",
                Line.In("t̄", "mean time", Duration.FromSeconds(meanTime)), Line.In("m̄", "mean mass", Mass.FromKilograms(meanMass)), Line.In("rate", "output", rate)));
    }

    private static Term[] SpreadTerms(Mass mass, Ratio spread, double ends) =>
        [Line.In("m", "mass", mass), Line.In("s", "spread of the output", spread), Line.In("k", "standard deviations to the ends", ends)];

    private static Refusal? NotSpread(Ratio spread, double ends) =>
        Gate.First(
            Gate.NotNegative("spread of the output", spread),
            Gate.Number("standard deviations to the ends", ends, 0, 10, "0 to 10", "it is a number of standard deviations"),
            Gate.Require(ends * spread.DecimalFractions < 1, "spread of the output", Measure.Of(spread), "so small that some foam surely comes", "the low end would be nothing"));

    private static Refusal? NotOutput(Output output) =>
        Gate.First(Gate.Positive("output", output.Rate), Gate.NotNegative("lag", output.Lag));

    private static Refusal? NotAirPressure(Said input, Pressure found) =>
        Gate.Require(found.Kilopascals is >= 20 and <= 120, input, Measure.Of(found), "20 to 120 kPa absolute",
            "it is an absolute air pressure on Earth, not a gauge pressure or one reduced from another unit by mistake");
}
