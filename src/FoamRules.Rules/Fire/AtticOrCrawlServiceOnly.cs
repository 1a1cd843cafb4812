using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.attic-or-crawl-service-only: an attic or crawl space whose foam has less than a thermal barrier is entered only for
/// service, holds no storage and is no plenum; has the access that the code asks for; and keeps the conditions of a report used.
/// </summary>
public sealed class AtticOrCrawlServiceOnly(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <summary>Its id.</summary>
    public const string Id = "fire.attic-or-crawl-service-only";

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.Of(bearer) switch
    {
        FoamLocation.Attic or FoamLocation.CrawlSpace => BarrierNeed.WhyExceptionIsNotUsed(bearer, CodeOf(bearer)),
        null => "place-not-given",
        _ => "other-place",
    };

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code) => ServiceOnlyException.Judge(bearer, code);
}
