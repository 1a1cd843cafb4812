using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Paper;

/// <summary>
/// paper.work-date-fits-spraying: the plan's work date lies within the days on which its areas have foam worked. A plan whose day has
/// slipped says one and means the other; it is not refused, since a crew checks it on site.
/// </summary>
public sealed class WorkDateFitsSpraying(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer) =>
        bearer.Plan.WorkDate is null ? "no-work-date" : bearer.Areas.All(area => area.Area is { FirstSprayAt: null, LastSprayAt: null }) ? "no-spray-date" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        var (plan, work) = (bearer.Plan, bearer.Plan.WorkDate!.Value);
        var first = bearer.Areas.Where(area => area.Area.FirstSprayAt is not null).MinBy(area => area.Area.FirstSprayAt)?.Area;
        var last = bearer.Areas.Where(area => area.Area.LastSprayAt is not null).MaxBy(area => area.Area.LastSprayAt)?.Area;
        // Without the site's time zone, an instant can stand on the day before or after.
        var apart = plan.TimeZone is null ? 1 : 0;
        if (first is not null && Day(first.FirstSprayAt) is var from && work < from.AddDays(-apart))
        {
            return Apart("too-early", first, nameof(WorkArea.FirstSprayAt), from);
        }

        if (last is not null && Day(last.LastSprayAt) is var until && work > until.AddDays(apart))
        {
            return Apart("too-late", last, nameof(WorkArea.LastSprayAt), until);
        }

        // Before the last, or after the first, the other end decides.
        return first is null ? Verdict.Missing(last!, nameof(WorkArea.FirstSprayAt))
            : last is null && work != Day(first.FirstSprayAt) ? Verdict.Missing(first, nameof(WorkArea.LastSprayAt))
            : plan.TimeZone is null ? Verdict.Missing(plan, nameof(Plan.TimeZone))
            : Verdict.Met();

        DateOnly Day(DateTimeOffset? at) => SiteClock.DayOf(at!.Value, plan.TimeZone);

        Verdict Apart(string key, WorkArea area, string property, DateOnly day) => Verdict.NotMet(key)
            .On(plan, nameof(Plan.WorkDate), Measure.OfDate(work)).On(area, property, Measure.OfDate(day)).With("work", Measure.OfDate(work)).With("spray", Measure.OfDate(day));
    }
}
