using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.clear-of-luminaires: foam keeps clear of recessed luminaires; one of type IC may touch it only where its instructions or
/// listing allow foam. At close-out the clearances were checked as built.
/// </summary>
public sealed class ClearOfLuminaires : Requirement<WorkFacts>
{
    private readonly Limit _clearance;

    /// <summary>Reads its limit.</summary>
    public ClearOfLuminaires(RequirementSpec spec)
        : base(spec) => _clearance = Need("clearance");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.IsInSteelSection(bearer) ? "steel-section" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var fire = bearer.Fire;
        if (fire.Luminaires is not { } list)
        {
            return Verdict.Missing(fire, nameof(FireSituation.Luminaires));
        }

        var parts = list.Luminaires.Select(Judge).ToList();
        // One check as built covers luminaires and flues; where there are flues, fire.clear-of-flues asks for it.
        if (bearer.AsBuilt && parts.Count > 0 && fire.Flues is not { Flues.IsEmpty: false })
        {
            parts.Add(Answer.Yes(fire.ClearancesCheckedAsBuilt, fire, nameof(FireSituation.ClearancesCheckedAsBuilt), "not-checked"));
        }

        return Verdict.Worst(parts);
    }

    private Verdict Judge(Luminaire luminaire)
    {
        if (luminaire is { TypeIc: true, ListedForFoam: true })
        {
            return Verdict.Met().On(luminaire, nameof(Luminaire.ListedForFoam));
        }

        var clear = Part.Hold(luminaire, nameof(Luminaire.Clearance), luminaire.Clearance, _clearance, luminaire.TypeIc is true ? "ic-not-listed" : "not-met");
        return clear.Outcome == Outcome.NotMet && Unknown(luminaire) is { } property ? Verdict.Missing(luminaire, property) : clear;
    }

    // Too near, but it may be a luminaire that foam may touch.
    private static string? Unknown(Luminaire luminaire) => luminaire switch
    {
        { TypeIc: null } => nameof(Luminaire.TypeIc),
        { TypeIc: true, ListedForFoam: null } => nameof(Luminaire.ListedForFoam),
        _ => null,
    };
}
