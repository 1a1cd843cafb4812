using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.clear-of-flues: foam keeps the listed clearance of each flue, else the clearance of its kind; the space is never filled.
/// At close-out the clearances were checked as built.
/// </summary>
public sealed class ClearOfFlues(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.IsInSteelSection(bearer) ? "steel-section" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var fire = bearer.Fire;
        if (fire.Flues is not { } list)
        {
            return Verdict.Missing(fire, nameof(FireSituation.Flues));
        }

        var parts = list.Flues.Select(Judge).ToList();
        if (bearer.AsBuilt && parts.Count > 0)
        {
            parts.Add(Answer.Yes(fire.ClearancesCheckedAsBuilt, fire, nameof(FireSituation.ClearancesCheckedAsBuilt), "not-checked"));
        }

        return Verdict.Worst(parts);
    }

    private Verdict Judge(Flue flue)
    {
        if (flue.ListedClearance is { } listed)
        {
            return Clear(flue, PlanLimit.Of(flue, nameof(Flue.ListedClearance), listed, Tighter.Higher, SourceStatus.DataSheet));
        }

        if (flue.Kind is not { } kind)
        {
            return Verdict.Missing(flue, nameof(Flue.Kind));
        }

        // Where no rule set knows the kind, only its listing says.
        return Find($"clearance.{Answer.Word(kind)}") is { } limit
            ? Clear(flue, limit)
            : Verdict.Missing(flue, nameof(Flue.ListedClearance));
    }

    private static Verdict Clear(Flue flue, Limit limit) => Part.Hold(flue, nameof(Flue.Clearance), flue.Clearance, limit, "not-met")
        .With("flue", flue.Kind is { } kind and not FlueKind.Other ? Spoken.Of(kind) : Spoken.Word("flue"));
}
