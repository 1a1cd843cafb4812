using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.exclusion-zone-set: without a containment, people without protection are kept at a distance and off the floors above and
/// below; with one, they are kept out of it and away from the exhaust's outlet. In the open there are no floors to clear.
/// </summary>
public sealed class ExclusionZoneSet : Requirement<AreaFacts>
{
    private readonly Limit _distance;

    /// <summary>The requirement as the rule sets state it.</summary>
    public ExclusionZoneSet(RequirementSpec spec)
        : base(spec) => _distance = Need("distance");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.BystandersExposed;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        var inTheOpen = AreaAir.IsInTheOpen(bearer);
        return area.Contained switch
        {
            true => Answer.Yes(area.ExhaustOutletExcluded, area, nameof(WorkArea.ExhaustOutletExcluded), "outlet-open"),
            null when !inTheOpen => Verdict.Missing(area, nameof(WorkArea.Contained)),
            _ => Verdict.Worst(inTheOpen ? [Distance(area)] : [Distance(area), Floors(area)]),
        };
    }

    private Verdict Distance(WorkArea area) => area.ExclusionDistance is { } distance
        ? Hold(distance, _distance).On(area, nameof(WorkArea.ExclusionDistance), distance)
        : Verdict.Missing(area, nameof(WorkArea.ExclusionDistance));

    private static Verdict Floors(WorkArea area) =>
        Answer.Yes(area.FloorsAboveAndBelowClear, area, nameof(WorkArea.FloorsAboveAndBelowClear), "floors-not-clear");
}
