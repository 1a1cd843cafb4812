using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.exterior-wall-assembly-tested: an exterior wall of types I to IV matches an assembly that passed, holds no more heat
/// than it, does not ignite, is labelled, and keeps its rating. Its indices are judged by fire.surface-burning-within-limit,
/// its covering inside by fire.separated-from-interior.
/// </summary>
public sealed class ExteriorWallAssemblyTested(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer)
    {
        if (bearer.Fire.InExteriorWall is false)
        {
            return "not-in-exterior-wall";
        }

        if (bearer.Job.Site.BuildingCode is BuildingCode.Irc)
        {
            return "not-in-code";
        }

        return CodeOf(bearer)?.Find("exempt-construction-types") is { } exempt && ConstructionTypes.Among(bearer.Job.Site, exempt).Outcome == Outcome.Met ? "construction-type" : null;
    }

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code)
    {
        var fire = bearer.Fire;
        if (fire.InExteriorWall is null)
        {
            return Verdict.Missing(fire, nameof(FireSituation.InExteriorWall));
        }

        if (bearer.Job.Site.ConstructionType is null)
        {
            return Verdict.Missing(bearer.Job.Site, nameof(Site.ConstructionType));
        }

        if (fire.WallAssembly is not { } wall)
        {
            return Verdict.Missing(fire, nameof(FireSituation.WallAssembly));
        }

        // The exception for one-storey walls under metal takes the assembly test and the heat content away, nothing else.
        var isExcepted = FoamPlace.Of(bearer) is FoamLocation.OneStoreyMetalWall
            && OtherExceptions.OneStoreyWall(bearer, code.Of(SeparatedFromInterior.Id)).Outcome == Outcome.Met;
        Verdict[] assembly = isExcepted ? [] : [Answer.Yes(wall.MatchesTestedAssembly, wall, nameof(WallAssembly.MatchesTestedAssembly), "no-tested-assembly"), HeatContent(wall)];
        return Verdict.Worst([
            .. assembly,
            Answer.Yes(wall.IgnitionShownOrExempt, wall, nameof(WallAssembly.IgnitionShownOrExempt), "ignition"),
            Answer.Yes(wall.Labelled, wall, nameof(WallAssembly.Labelled), "label"),
            Rating(wall),
        ]);
    }

    private static Verdict HeatContent(WallAssembly wall) => wall.TestedHeatContent is { } tested
        ? Part.Hold(wall, nameof(WallAssembly.HeatContent), wall.HeatContent,
            PlanLimit.Of(wall, nameof(WallAssembly.TestedHeatContent), tested, Tighter.Lower, SourceStatus.DataSheet), "heat-content")
        : Verdict.Missing(wall, nameof(WallAssembly.TestedHeatContent));

    private static Verdict Rating(WallAssembly wall) => wall.Rated switch
    {
        null => Verdict.Missing(wall, nameof(WallAssembly.Rated)),
        false => Verdict.Met(),
        true => Answer.Yes(wall.RatingKept, wall, nameof(WallAssembly.RatingKept), "rating"),
    };
}
