using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.last-heat-check: a named person stays after the last pass, pour or test bun, scans foam and waste, and leaves only on
/// falling readings.
/// </summary>
public sealed class LastHeatCheck : Requirement<WorkFacts>
{
    private readonly Limit _stay;

    /// <summary>Reads its limit.</summary>
    public LastHeatCheck(RequirementSpec spec)
        : base(spec) => _stay = Need("stay");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Item.HeatWatch is not { } watch)
        {
            return Verdict.Missing(bearer.Item, nameof(WorkItem.HeatWatch));
        }

        return Verdict.Worst([
            string.IsNullOrWhiteSpace(watch.Person) ? Verdict.Missing(watch, nameof(HeatWatch.Person)) : Verdict.Met(),
            Part.Hold(watch, nameof(HeatWatch.StaysFor), watch.StaysFor, _stay, "too-short"),
            Answer.Yes(watch.ScansFoamAndWaste, watch, nameof(HeatWatch.ScansFoamAndWaste), "no-scan"),
            Answer.Yes(watch.LeavesOnFallingReadings, watch, nameof(HeatWatch.LeavesOnFallingReadings), "leaves-early"),
        ]);
    }
}
