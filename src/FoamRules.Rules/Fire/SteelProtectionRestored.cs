using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.steel-protection-restored: where the work cuts the fireproofing of steel, the repair is named by its listing; at close-out
/// it is done and inspected.
/// </summary>
public sealed class SteelProtectionRestored(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer)
    {
        if (bearer.Fire.SteelProtection is { Cut: false })
        {
            return "not-cut";
        }

        return IsOnSteel(bearer) || bearer.Fire.SteelProtection is not null ? null : "no-steel";
    }

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Fire.SteelProtection is not { } steel)
        {
            return Verdict.Missing(bearer.Fire, nameof(FireSituation.SteelProtection));
        }

        if (steel.Cut is null)
        {
            return Verdict.Missing(steel, nameof(SteelProtection.Cut));
        }

        var named = Answer.Yes(steel.RepairNamed, steel, nameof(SteelProtection.RepairNamed), "not-named");
        return !bearer.AsBuilt ? named : Verdict.Worst([
            named,
            Answer.Yes(steel.Repaired, steel, nameof(SteelProtection.Repaired), "not-repaired"),
            Answer.Yes(steel.Inspected, steel, nameof(SteelProtection.Inspected), "not-inspected"),
        ]);
    }

    private static bool IsOnSteel(WorkFacts bearer) => FoamPlace.IsInSteelSection(bearer)
        || bearer.Item.Substrate is null or Substrate.Steel or Substrate.GalvanizedSteel or Substrate.PaintedSteel;
}
