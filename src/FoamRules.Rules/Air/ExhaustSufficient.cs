using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.exhaust-sufficient: indoors, fans exhaust the area, make-up air has a way in, and the flow is at least the sheet's or a
/// layer's figure. General practice sets no figure; it only shows what a study measured.
/// </summary>
public sealed class ExhaustSufficient : Requirement<AreaFacts>
{
    private const string None = "none";

    private readonly Limit? _byLayer;
    private readonly Limit _shown;
    private readonly Limit _studied;
    private readonly Limit _measured;

    /// <summary>The requirement as the rule sets state it.</summary>
    public ExhaustSufficient(RequirementSpec spec)
        : base(spec)
    {
        _byLayer = Find("air-changes");
        _shown = Need("study.fan");
        _studied = Need("study.air-changes");
        _measured = Need("study.measured");
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => AreaAir.IsInTheOpen(bearer) ? AreaAir.OpenAir : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        if (area.Enclosure is null)
        {
            return Verdict.Missing(area, nameof(WorkArea.Enclosure));
        }

        if (area.Ventilation is not { } ventilation)
        {
            return Verdict.Missing(area, nameof(WorkArea.Ventilation));
        }

        return Verdict.Worst(
        [
            Planned(ventilation.MechanicalExhaust, area, ventilation, nameof(Ventilation.MechanicalExhaust), "no-exhaust"),
            Planned(ventilation.MakeUpAir, area, ventilation, nameof(Ventilation.MakeUpAir), "no-make-up"),
            .. Figures(bearer).Select(figure => Flow(area, ventilation, figure)),
        ]);
    }

    // No exhaust, and an exhaust to which no air can come, are the same to whoever is inside.
    private Verdict Planned(bool? answer, WorkArea area, Ventilation ventilation, string property, string otherwise)
    {
        var verdict = Answer.Yes(answer, ventilation, property, otherwise);
        if (verdict.Outcome != Outcome.NotMet)
        {
            return verdict;
        }

        verdict = verdict.AtTier(None).With("fan-changes", _shown.Value).With("study-changes", _studied.Value).With("study-level", _measured.Value);
        return area.AirVolume is { } volume
            ? verdict.With("fan", Measure.AtLeast(VolumeFlow.FromCubicMetersPerHour(_shown.As<Frequency>().CyclesPerHour * volume.CubicMeters)))
            : verdict.Saying(otherwise + "-unsized");
    }

    /// <summary>The air changes that the data sheets and the rule sets ask for in an area; none where nobody gives a figure.</summary>
    internal IEnumerable<Limit> Figures(AreaFacts bearer)
    {
        var sheets = AreaAir.Sheets(bearer).Select(sheet => FromSheet(sheet, nameof(Product.Ventilation), sheet.Ventilation, Tighter.Higher)).OfType<Limit>();
        return _byLayer is null ? sheets : sheets.Append(_byLayer);
    }

    private static Verdict Flow(WorkArea area, Ventilation ventilation, Limit figure)
    {
        if (ventilation.ExhaustFlow is not { } flow)
        {
            return Verdict.Missing(ventilation, nameof(Ventilation.ExhaustFlow));
        }

        if (area.AirVolume is not { } volume)
        {
            return Verdict.Missing(area, nameof(WorkArea.AirVolume));
        }

        var changes = Purge.AirChanges(flow, volume);
        return changes.HasValue
            ? Hold(changes.Value, figure).On(ventilation, nameof(Ventilation.ExhaustFlow), flow).On(area, nameof(WorkArea.AirVolume), volume).Worked(changes.Steps)
                .With("fan", Measure.AtLeast(VolumeFlow.FromCubicMetersPerHour(figure.As<Frequency>().CyclesPerHour * volume.CubicMeters)))
            : Verdict.OutOfRange(changes.Refusal!);
    }
}
