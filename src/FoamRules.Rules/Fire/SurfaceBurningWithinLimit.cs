using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.surface-burning-within-limit: the foam's flame spread and smoke lie within the code's limits, by the test that the
/// code and the country name; in exterior walls of types I to IV within the stricter ones.
/// </summary>
public sealed class SurfaceBurningWithinLimit(RequirementSpec spec) : CodeRequirement(spec)
{
    private const string ExteriorWall = "exterior-wall.";

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) =>
        bearer.Job.Site.BuildingCode is BuildingCode.Ibc && IsAboveRoof(bearer)
            && bearer.Fire.RoofAssembly is { Classed: true, PassedNfpa276OrUl1256: true } ? "roof-assembly" : null;

    /// <inheritdoc/>
    private protected override Verdict? BeforeCode(WorkFacts bearer) =>
        // A US index never answers a Canadian question, whatever rule sets and code the plan names.
        TestOfCountry(bearer) is { } test && bearer.Sheet.SurfaceBurning is { } burning ? SurfaceBurningIndices.NotBy(burning, test) : null;

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code)
    {
        var sheet = bearer.Sheet;
        var verdict = SurfaceBurningIndices.Against(sheet, code, smokeCounts: !IsAboveRoof(bearer));
        if (verdict.Outcome != Outcome.Met || code.Find(ExteriorWall + "exempt-construction-types") is not { } exempt)
        {
            return verdict;
        }

        var stricter = SurfaceBurningIndices.Against(sheet, code, ExteriorWall);
        return stricter.Outcome == Outcome.Met ? verdict : IsInSuchWall(bearer, exempt) switch
        {
            { Outcome: Outcome.Met } => stricter,
            { Outcome: Outcome.NotMet } => verdict,
            var unknown => unknown,
        };
    }

    private Limit? TestOfCountry(WorkFacts bearer) =>
        bearer.Job.Plan.Jurisdiction?.Country is { } country ? Find($"test-of-country.{country.ToLowerInvariant()}") : null;

    private static Verdict IsInSuchWall(WorkFacts bearer, Limit exempt) => bearer.Fire.InExteriorWall switch
    {
        null => Verdict.Missing(bearer.Fire, nameof(FireSituation.InExteriorWall)),
        false => Verdict.NotMet(),
        true => ConstructionTypes.NotAmong(bearer.Job.Site, exempt),
    };

    private static bool IsAboveRoof(WorkFacts bearer) => FoamPlace.Of(bearer) is FoamLocation.AboveRoofDeck;
}
