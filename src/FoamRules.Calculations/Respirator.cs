using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>One cell of a table of assigned protection factors.</summary>
/// <param name="Type">Type of respirator, such as "supplied_air".</param>
/// <param name="Mode">Mode, such as "continuous_flow"; empty where the table has none.</param>
/// <param name="Facepiece">Facepiece, such as "full_facepiece".</param>
public sealed record RespiratorClass(string Type, string Mode, string Facepiece);

/// <summary>What is expected in the air, against one exposure limit in force.</summary>
/// <param name="LimitName">Name of the limit, such as "ceiling" or "8 h average".</param>
/// <param name="Limit">The limit.</param>
/// <param name="ExpectedPeak">Highest concentration expected, averaged over that limit's own averaging time.</param>
public sealed record Exposure(string LimitName, MassConcentration Limit, MassConcentration ExpectedPeak);

/// <summary>The protection factor that a task needs.</summary>
/// <param name="TaskFloor">The least factor that the task itself asks for, whatever is measured.</param>
/// <param name="FromExposure">The factor that the expected concentration asks for.</param>
/// <param name="Needed">The larger of the two.</param>
/// <param name="GoverningLimit">The limit that sets <paramref name="FromExposure"/>.</param>
public sealed record NeededProtection(double TaskFloor, double FromExposure, double Needed, string GoverningLimit);

/// <summary>What sets a maximum use concentration.</summary>
public enum MaximumUseReason
{
    /// <summary>Assigned protection factor × exposure limit.</summary>
    ProtectionFactor,

    /// <summary>The concentration immediately dangerous to life or health (IDLH).</summary>
    Idlh,

    /// <summary>The limit of the cartridge.</summary>
    Cartridge,
}

/// <summary>Maximum use concentration of a respirator.</summary>
/// <param name="Concentration">The concentration outside the mask that it may be used in.</param>
/// <param name="Reason">What sets it.</param>
public sealed record MaximumUse(MassConcentration Concentration, MaximumUseReason Reason);

/// <summary>Protection factors, maximum use concentrations and the concentrations they compare. The table of factors comes from the caller.</summary>
public static class Respirator
{
    private const double GasConstant = 8.314462618;
    private const double NcoGramsPerMole = 42.017;

    private const string TableSource = "29 CFR 1910.134(d)(3)(i)(A) Table 1 (read), or the table of the rule set";
    private const string MucSource = "29 CFR 1910.134(b) and (d)(3)(i)(B) (read)";
    private const string VapourSource = "ideal gas; CODATA 2018 gas constant (from memory, exact by definition)";
    private const string NcoSource = "ratio of molar masses, NCO 42.017 g/mol from IUPAC atomic weights (computed)";

    /// <summary>
    /// Assigned protection factor of a class of respirator, looked up in the caller's table. Range: a class that the table has; a blank
    /// cell is not assigned and refused. Source: the table, such as 29 CFR 1910.134 Table 1.
    /// </summary>
    public static Calculated<Scalar> AssignedProtectionFactor(IReadOnlyDictionary<RespiratorClass, double> table, RespiratorClass respirator)
    {
        var name = string.Join(", ", new[] { respirator.Type, respirator.Mode, respirator.Facepiece }.Where(part => part.Length > 0));
        if (!table.TryGetValue(respirator, out var factor))
            return Calculated<Scalar>.Refuse("respirator", Measure.OfText(name), "a class with a factor in the table", "no protection factor is assigned to it");
        if (Gate.AtLeastOne("assigned protection factor", factor, "a respirator does not add to what is breathed") is { } refusal)
            return Calculated<Scalar>.Refuse(refusal);
        var assigned = Scalar.FromAmount(factor);
        return Calculated<Scalar>.From(assigned, Line.Of("assigned protection factor", "looked up", assigned, TableSource,
            new Term("class", "type, mode and facepiece", Measure.OfText(name))));
    }

    /// <summary>
    /// Needed protection factor: the task's floor first, then the largest of expected peak ÷ limit over the limits in force; the larger of
    /// the two is needed. Range: floor 1 or more, limits more than 0, concentrations 0 or more, at least one limit. A factor below 1 means
    /// that the limit is kept without a respirator, not that the floor falls away. Source: definition of the protection factor, 29 CFR 1910.134(b).
    /// </summary>
    public static Calculated<NeededProtection> NeededFactor(double taskFloor, IReadOnlyList<Exposure> exposures)
    {
        if (Gate.First(
                Gate.AtLeastOne("task's floor", taskFloor, "1 is no respirator"),
                Gate.Require(exposures.Count > 0, "exposure limits", Measure.OfCount(exposures.Count), "at least one", "without a limit no factor can be worked out")) is { } refusal)
            return Calculated<NeededProtection>.Refuse(refusal);
        foreach (var exposure in exposures)
            if (Gate.First(Gate.Positive("exposure limit", exposure.Limit), Gate.NotNegative("expected concentration", exposure.ExpectedPeak)) is { } notExposure)
                return Calculated<NeededProtection>.Refuse(notExposure);
        // Ties go to the first name in the alphabet, so that the order of the limits changes nothing.
        var governing = exposures.OrderByDescending(Factor).ThenBy(exposure => exposure.LimitName, StringComparer.Ordinal).First();
        var fromExposure = Factor(governing);
        var needed = Math.Max(taskFloor, fromExposure);
        return Calculated<NeededProtection>.From(new NeededProtection(taskFloor, fromExposure, needed, governing.LimitName),
            Line.Of("floor of the task", "given by the task", Measure.OfFactor(taskFloor), "rule set"),
            Line.Of("factor for the expected concentration", "PF = C_peak ÷ limit, largest over the limits", Measure.OfFactor(fromExposure), MucSource,
                Line.In("C_peak", "highest concentration expected over the limit's averaging time", governing.ExpectedPeak),
                Line.In("limit", governing.LimitName, governing.Limit)),
            Line.Of("needed protection factor", "larger of the two", Measure.OfFactor(needed), MucSource,
                Line.In("floor", "floor of the task", taskFloor), Line.In("PF", "factor for the expected concentration", fromExposure)));

        static double Factor(Exposure exposure) => exposure.ExpectedPeak / exposure.Limit;
    }

    /// <summary>
    /// Maximum use concentration: MUC = min(APF × limit, IDLH, cartridge limit). Null means that no such limit is known or applies.
    /// Range: APF 1 or more, concentrations more than 0. Source: 29 CFR 1910.134(b), (d)(3)(i)(B).
    /// </summary>
    public static Calculated<MaximumUse> MaximumUseConcentration(double assignedProtectionFactor, MassConcentration limit, MassConcentration? idlh, MassConcentration? cartridgeLimit)
    {
        if (Gate.First(
                Gate.AtLeastOne("assigned protection factor", assignedProtectionFactor, "a respirator does not add to what is breathed"),
                Gate.Positive("exposure limit", limit),
                idlh is { } danger ? Gate.Positive("IDLH", danger) : null,
                cartridgeLimit is { } cartridge ? Gate.Positive("cartridge limit", cartridge) : null) is { } refusal)
            return Calculated<MaximumUse>.Refuse(refusal);
        var byFactor = assignedProtectionFactor * limit;
        var use = new MaximumUse(byFactor, MaximumUseReason.ProtectionFactor);
        if (idlh < use.Concentration)
            use = new MaximumUse(idlh.Value, MaximumUseReason.Idlh);
        if (cartridgeLimit < use.Concentration)
            use = new MaximumUse(cartridgeLimit.Value, MaximumUseReason.Cartridge);
        return Calculated<MaximumUse>.From(use,
            Line.Of("assigned protection factor × limit", "APF × limit", byFactor, MucSource,
                Line.In("APF", "assigned protection factor", assignedProtectionFactor), Line.In("limit", "exposure limit", limit)),
            Line.Of("maximum use concentration", "MUC = min(APF × limit, IDLH, cartridge)", use.Concentration, MucSource,
                Line.In("APF × limit", "by protection factor", byFactor),
                new Term("IDLH", "immediately dangerous to life or health", idlh is { } a ? Measure.Of(a) : Measure.OfText("not given")),
                new Term("cartridge", "limit of the cartridge", cartridgeLimit is { } b ? Measure.Of(b) : Measure.OfText("not given"))));
    }

    /// <summary>
    /// Mass concentration of a vapour: c = x M p ÷ (R T), x the share by volume (ppm), at the jurisdiction's reference temperature and pressure.
    /// Vapour only: an aerosol has no ppm. Range: 0 to 1,000,000 ppm, molar mass more than 0, 0 to 40 °C, 80 to 110 kPa. Source: ideal gas law.
    /// </summary>
    public static Calculated<MassConcentration> VapourMass(VolumeConcentration vapour, MolarMass molarMass, Temperature referenceTemperature, Pressure referencePressure)
    {
        if (Gate.First(
                Gate.Require(vapour.PartsPerMillion is >= 0 and <= 1_000_000, "vapour concentration", Measure.Of(vapour), "0 to 1,000,000 ppm", "it is a share of the air"),
                NotReference(molarMass, referenceTemperature, referencePressure)) is { } refusal)
            return Calculated<MassConcentration>.Refuse(refusal);
        var mass = vapour.DecimalFractions * PureVapour(molarMass, referenceTemperature, referencePressure);
        return Calculated<MassConcentration>.From(mass, Line.Of("mass concentration of the vapour", "c = x M p ÷ (R T)", mass, VapourSource,
            [Line.In("x", "share by volume", vapour), .. ReferenceTerms(molarMass, referenceTemperature, referencePressure)]));
    }

    /// <summary>
    /// Share by volume (ppm) of a vapour: x = c R T ÷ (M p), the reverse of <see cref="VapourMass"/>. Vapour only: an aerosol has no ppm.
    /// Range: concentration 0 or more and not above the pure vapour, molar mass more than 0, 0 to 40 °C, 80 to 110 kPa. Source: ideal gas law.
    /// </summary>
    public static Calculated<VolumeConcentration> VapourShare(MassConcentration vapour, MolarMass molarMass, Temperature referenceTemperature, Pressure referencePressure)
    {
        if (Gate.First(Gate.NotNegative("vapour concentration", vapour), NotReference(molarMass, referenceTemperature, referencePressure)) is { } refusal)
            return Calculated<VolumeConcentration>.Refuse(refusal);
        var share = VolumeConcentration.FromDecimalFractions(vapour / PureVapour(molarMass, referenceTemperature, referencePressure));
        if (share.DecimalFractions > 1)
            return Calculated<VolumeConcentration>.Refuse("vapour concentration", Measure.Of(vapour), "not above that of the pure vapour", "it is a share of the air");
        return Calculated<VolumeConcentration>.From(share, Line.Of("share by volume of the vapour", "x = c R T ÷ (M p)", share, VapourSource,
            [Line.In("c", "mass concentration", vapour), .. ReferenceTerms(molarMass, referenceTemperature, referencePressure)]));
    }

    /// <summary>
    /// Mass share of NCO groups in an isocyanate: w = f × 42.017 g/mol ÷ M, f groups in a molecule (MDI monomer: 2, 0.336).
    /// Range: 1 to 10 groups, and no more NCO than molecule. Source: ratio of molar masses.
    /// </summary>
    public static Calculated<Ratio> NcoShare(MolarMass isocyanate, int groups)
    {
        var share = groups * NcoGramsPerMole / isocyanate.GramsPerMole;
        if (Gate.First(
                Gate.Positive("molar mass", isocyanate),
                Gate.Require(groups is >= 1 and <= 10, "NCO groups in a molecule", Measure.OfCount(groups), "1 to 10", "an isocyanate has at least one, and monomers and oligomers in use few"),
                Gate.Require(share <= 1, "molar mass", Measure.Of(isocyanate), "at least that of its NCO groups", "the groups cannot outweigh the molecule")) is { } refusal)
            return Calculated<Ratio>.Refuse(refusal);
        var ratio = Ratio.FromDecimalFractions(share);
        return Calculated<Ratio>.From(ratio, Line.Of("mass share of NCO", "w = f × M_NCO ÷ M", ratio, NcoSource,
            new Term("f", "NCO groups in a molecule", Measure.OfCount(groups)),
            Line.In("M_NCO", "molar mass of NCO", MolarMass.FromGramsPerMole(NcoGramsPerMole)),
            Line.In("M", "molar mass of the isocyanate", isocyanate)));
    }

    /// <summary>Isocyanate that carries a concentration of NCO: c = c_NCO ÷ w. Concentration 0 or more, 0 &lt; w ≤ 100 %. Source: ratio of molar masses.</summary>
    public static Calculated<MassConcentration> IsocyanateFromNco(MassConcentration nco, Ratio ncoShare)
    {
        if (Gate.First(Gate.NotNegative("NCO concentration", nco), NotShare(ncoShare)) is { } refusal)
            return Calculated<MassConcentration>.Refuse(refusal);
        var isocyanate = nco / ncoShare.DecimalFractions;
        return Calculated<MassConcentration>.From(isocyanate, Line.Of("isocyanate", "c = c_NCO ÷ w", isocyanate, NcoSource,
            Line.In("c_NCO", "NCO concentration", nco), Line.In("w", "mass share of NCO", ncoShare)));
    }

    /// <summary>NCO in a concentration of isocyanate: c_NCO = c × w. Concentration 0 or more, 0 &lt; w ≤ 100 %. Source: ratio of molar masses.</summary>
    public static Calculated<MassConcentration> NcoFromIsocyanate(MassConcentration isocyanate, Ratio ncoShare)
    {
        if (Gate.First(Gate.NotNegative("isocyanate concentration", isocyanate), NotShare(ncoShare)) is { } refusal)
            return Calculated<MassConcentration>.Refuse(refusal);
        var nco = ncoShare.DecimalFractions * isocyanate;
        return Calculated<MassConcentration>.From(nco, Line.Of("NCO", "c_NCO = c × w", nco, NcoSource,
            Line.In("c", "isocyanate concentration", isocyanate), Line.In("w", "mass share of NCO", ncoShare)));
    }

    private static MassConcentration PureVapour(MolarMass molarMass, Temperature temperature, Pressure pressure) =>
        MassConcentration.FromKilogramsPerCubicMeter(molarMass.KilogramsPerMole * pressure.Pascals / (GasConstant * temperature.Kelvins));

    private static Term[] ReferenceTerms(MolarMass molarMass, Temperature temperature, Pressure pressure) =>
    [
        Line.In("M", "molar mass", molarMass),
        Line.In("T", "reference temperature", temperature),
        Line.In("p", "reference pressure", pressure),
        new Term("R", "gas constant", Measure.Of(MolarEntropy.FromJoulesPerMoleKelvin(GasConstant))),
    ];

    private static Refusal? NotReference(MolarMass molarMass, Temperature temperature, Pressure pressure) => Gate.First(
        Gate.Positive("molar mass", molarMass),
        Gate.Require(temperature.DegreesCelsius is >= 0 and <= 40, "reference temperature", Measure.Of(temperature), "0 to 40 °C", "limits are stated for room air"),
        Gate.Require(pressure.Kilopascals is >= 80 and <= 110, "reference pressure", Measure.Of(pressure), "80 to 110 kPa absolute", "limits are stated for air near one atmosphere"));

    private static Refusal? NotShare(Ratio found) =>
        Gate.Require(found.DecimalFractions is > 0 and <= 1, "mass share of NCO", Measure.Of(found), "more than 0 %, at most 100 %", "it is a share of the mass");
}
