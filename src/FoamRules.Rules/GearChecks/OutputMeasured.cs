using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.GearChecks;

/// <summary>gear.output-measured: for cavity work the output was measured today, by a shot that was timed and weighed.</summary>
public sealed class OutputMeasured(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer) => bearer.Work.Any(work => work is FillFacts) ? null : "no-fill";

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer) => bearer.Gear.OutputCheck is { } check
        ? Verdict.Worst([Verdict.Confirmed(check.TimedAndWeighed, check, nameof(OutputCheck.TimedAndWeighed)), Today(bearer.Plan, check)])
        : Verdict.Missing(bearer.Gear, nameof(Gear.OutputCheck));

    private static Verdict Today(Plan plan, OutputCheck check)
    {
        if (check.At is not { } at)
        {
            return Verdict.Missing(check, nameof(OutputCheck.At));
        }

        if (plan.JudgedAt is not { } now)
        {
            return Verdict.Missing(plan, nameof(Plan.JudgedAt));
        }

        var key = at > now ? "in-the-future" : SiteClock.DayOf(at, plan.TimeZone) == SiteClock.DayOf(plan) ? null : "another-day";
        var verdict = key is null ? Verdict.Met() : Verdict.NotMet(key).With("at", SiteClock.At(at, plan.TimeZone)).With("now", SiteClock.At(now, plan.TimeZone));
        return verdict.On(check, nameof(OutputCheck.At), Measure.OfInstant(at));
    }
}
