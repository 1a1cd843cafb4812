using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.occupants-out: nobody without protection is in the area, or in any space that shares its air, from the first spray to
/// re-entry. In the open there is no shared air: the zone and the intakes are judged by their own requirements.
/// </summary>
public sealed class OccupantsOut(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.BystandersExposed;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        var inside = Answer.Yes(area.UnprotectedPeopleOut, area, nameof(WorkArea.UnprotectedPeopleOut), "people-inside");
        return AreaAir.IsInTheOpen(bearer) ? inside : Verdict.Worst([inside, .. SharedAir(area)]);
    }

    private static IEnumerable<Verdict> SharedAir(WorkArea area) => area.SharedAir is { } shared
        ? shared.Spaces.Select((space, index) => Answer.Yes(space.PeopleOut, space, nameof(SharedSpace.PeopleOut), "people-in-shared-air")
            .With("space", Spoken.NameOr(space.Name, "space", index + 1)))
        : [Verdict.Missing(area, nameof(WorkArea.SharedAir))];
}
