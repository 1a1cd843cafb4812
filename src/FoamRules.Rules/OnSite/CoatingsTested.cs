using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>
/// site.coatings-tested: the paint of existing steel is tested for lead or taken as leaded, and leaded paint has controls to match.
/// Steel that the plan calls bare or primed counts too: a primer can hold lead.
/// </summary>
public sealed class CoatingsTested(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HarmfulDust;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer) =>
        bearer.Work.Any(work => IsPainted(work) || work.Item.Substrate is null) ? null : "no-painted-steel";

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        var site = bearer.Site;
        var verdict = site.CoatingAssessment is { } coating ? Assessed(coating) : Verdict.Missing(site, nameof(Site.CoatingAssessment));
        var building = site.ExistingBuilding is null ? [new FieldRef(site, nameof(Site.ExistingBuilding))] : Enumerable.Empty<FieldRef>();
        var substrates = bearer.Work.Any(IsPainted)
            ? []
            : bearer.Work.Where(work => work.Item.Substrate is null).OrderBy(work => work.Item.Id, StringComparer.Ordinal).Select(work => new FieldRef(work.Item, nameof(WorkItem.Substrate)));
        return verdict.OnceKnown(building.Concat(substrates));
    }

    private static bool IsPainted(WorkFacts work) => work.Item.Substrate is Substrate.PaintedSteel or Substrate.Steel;

    private static Verdict Assessed(CoatingAssessment coating) => coating.Assessment switch
    {
        null => Verdict.Missing(coating, nameof(CoatingAssessment.Assessment)),
        LeadAssessment.TestedFree => Verdict.Met().On(coating, nameof(CoatingAssessment.Assessment)),
        LeadAssessment.None => Verdict.NotMet("not-tested").On(coating, nameof(CoatingAssessment.Assessment)),
        _ => Verdict.Confirmed(coating.ControlsPlanned, coating, nameof(CoatingAssessment.ControlsPlanned), "no-controls"),
    };
}
