using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Body;

/// <summary>The days of the job, as far as the plan gives them.</summary>
internal static class WorkDays
{
    /// <summary>
    /// The last day on which the plan has foam worked: the work date, the day of an area's last spraying, and on site today. What must
    /// still be valid then is valid on the days before. Null where the plan does not say.
    /// </summary>
    public static DateOnly? Last(JobFacts job)
    {
        var plan = job.Plan;
        var days = job.Areas.Select(area => area.Area.LastSprayAt).OfType<DateTimeOffset>().Select(at => SiteClock.DayOf(at, plan.TimeZone)).ToList();
        if (plan.WorkDate is { } first)
        {
            days.Add(first);
        }

        if (job.Stage == Stage.PreStart && SiteClock.DayOf(plan) is { } today)
        {
            days.Add(today);
        }

        return days.Count == 0 ? null : days.Max();
    }
}
