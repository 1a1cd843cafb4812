using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.enclosure-negative: a closed-off work area is kept below the pressure around it, and appliances with an open flue that
/// draw from its air are off.
/// </summary>
public sealed class EnclosureNegative : Requirement<AreaFacts>
{
    private readonly Limit _below;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EnclosureNegative(RequirementSpec spec)
        : base(spec) => _below = Need("below-surroundings");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.BystandersExposed;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.Area switch
    {
        _ when AreaAir.IsInTheOpen(bearer) => AreaAir.OpenAir,
        { Contained: false, NegativePressurePlanned: not true } => "not-contained",
        _ => null,
    };

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        return area is { Contained: null, NegativePressurePlanned: not true }
            ? Verdict.Missing(area, nameof(WorkArea.Contained))
            : Verdict.Worst([Pressure(area), Flues(area)]);
    }

    private Verdict Pressure(WorkArea area) => area.Ventilation switch
    {
        null => Verdict.Missing(area, nameof(WorkArea.Ventilation)),
        { NegativePressure: { } below } ventilation => Hold(below, _below).On(ventilation, nameof(Ventilation.NegativePressure), below),
        var ventilation => Verdict.Missing(ventilation, nameof(Ventilation.NegativePressure)),
    };

    private static Verdict Flues(WorkArea area) => area.OpenFlueAppliances switch
    {
        null => Verdict.Missing(area, nameof(WorkArea.OpenFlueAppliances)),
        false => Verdict.Met().On(area, nameof(WorkArea.OpenFlueAppliances)),
        true => Answer.Yes(area.OpenFlueAppliancesOff, area, nameof(WorkArea.OpenFlueAppliancesOff), "appliances-on"),
    };
}
