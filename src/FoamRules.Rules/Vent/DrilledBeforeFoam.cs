using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Vent;

/// <summary>
/// vent.drilled-before-foam: this fill's holes are drilled before any foam is in the member; a later hole is drilled cold,
/// after cure, with a watch and an extinguisher.
/// </summary>
public sealed class DrilledBeforeFoam(RequirementSpec spec) : Requirement<FillFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HolesInMember;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        var fill = bearer.Fill;
        var first = Verdict.Confirmed(fill.DrilledBeforeFoam, fill, nameof(CavityFill.DrilledBeforeFoam));
        var later = fill.LaterHolesPlanned switch
        {
            false => Verdict.Met().On(fill, nameof(CavityFill.LaterHolesPlanned)),
            null => Verdict.Missing(fill, nameof(CavityFill.LaterHolesPlanned)),
            true => Verdict.Confirmed(fill.LaterHolesColdDrilledWithWatch, fill, nameof(CavityFill.LaterHolesColdDrilledWithWatch), "later-hole"),
        };
        return Verdict.Worst([first, later]);
    }
}
