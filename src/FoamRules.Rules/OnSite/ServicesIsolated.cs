using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.services-isolated: before anything is drilled or filled, both sides and the inside are scanned or opened, and what is found is isolated and proved dead.</summary>
public sealed class ServicesIsolated(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenServices;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer) => bearer.Work.Any(work => work is FillFacts) ? null : "nothing-filled";

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Site.Services is not { } services)
        {
            return Verdict.Missing(bearer.Site, nameof(Site.Services));
        }

        var scanned = Verdict.Confirmed(services.ScannedOrOpened, services, nameof(ServicesCheck.ScannedOrOpened), "not-scanned");
        var dead = services.Found switch
        {
            null => Verdict.Missing(services, nameof(ServicesCheck.Found)),
            false => Verdict.Met().On(services, nameof(ServicesCheck.Found)),
            true => Verdict.Confirmed(services.IsolatedAndProvedDead, services, nameof(ServicesCheck.IsolatedAndProvedDead), "live"),
        };
        return Verdict.Worst([dead, scanned]);
    }
}
