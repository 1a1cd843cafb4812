using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.ventilation-goes-on: the fans stay on after the last spraying at least until the air is clear enough for other trades, and
/// somebody watches that they do.
/// </summary>
public sealed class VentilationGoesOn(RequirementSpec spec) : ClearAirRequirement(spec, "mdi-level-for-trades")
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    private protected override string SheetProperty => nameof(Product.TradesReentry);

    private protected override Duration? OnSheet(Product sheet) => sheet.TradesReentry;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.Area switch
    {
        _ when AreaAir.IsInTheOpen(bearer) => AreaAir.OpenAir,
        { Ventilation.MechanicalExhaust: false } => "no-exhaust",
        _ => null,
    };

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.Ventilation is { } ventilation
        ? Verdict.Worst(
        [
            RunOn(bearer, ventilation),
            Answer.Yes(ventilation.RunOnConfirmed, ventilation, nameof(Ventilation.RunOnConfirmed), "nobody-watches"),
        ])
        : Verdict.Missing(bearer.Area, nameof(WorkArea.Ventilation));

    private Verdict RunOn(AreaFacts bearer, Ventilation ventilation) => ventilation.RunsOnFor is { } runsOn
        ? Against(bearer, runsOn, StayOutOf(bearer)).On(ventilation, nameof(Ventilation.RunsOnFor), runsOn)
        : Verdict.Missing(ventilation, nameof(Ventilation.RunsOnFor));
}
