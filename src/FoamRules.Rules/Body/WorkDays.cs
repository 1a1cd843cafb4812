using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

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

    /// <summary>Met where what a person has still holds on the last day; says until when it holds, and on which day it must.</summary>
    /// <param name="bearer">The person.</param>
    /// <param name="until">The last day on which it holds; null: not given.</param>
    /// <param name="property">The property that says so, by <c>nameof</c>.</param>
    /// <param name="otherwise">The key of what is said where it does not hold.</param>
    public static Verdict HoldsOnLast(PersonFacts bearer, DateOnly? until, string property, string otherwise)
    {
        var person = bearer.Person;
        if (until is not { } end)
        {
            return Verdict.Missing(person, property);
        }

        if (Last(bearer.Job) is not { } day)
        {
            return Verdict.Missing(bearer.Job.Plan, nameof(Plan.WorkDate));
        }

        return (end < day ? Verdict.NotMet(otherwise) : Verdict.Met())
            .On(person, property, Measure.OfDate(end)).With("until", Measure.OfDate(end)).With("day", Measure.OfDate(day));
    }
}
