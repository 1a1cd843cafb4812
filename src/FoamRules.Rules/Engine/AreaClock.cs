using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Air;
using FoamRules.Rules.Facts;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>
/// What happens when in each area, on the site's clock: the first spray, the last spray at which the purge clock starts, and before
/// which time nobody comes back. Waits are rounded up. Where the wait is not known in full, the words say that the time is not enough;
/// where the air never clears there is no time to give.
/// </summary>
internal sealed class AreaClock(JobFacts job, RuleNetwork network)
{
    /// <summary>The entries, the earliest first.</summary>
    public ImmutableArray<ScheduleEntry> Entries() =>
        [.. job.Areas.Where(area => area.Work.Count > 0).SelectMany(Of).OrderBy(entry => entry.At).ThenBy(entry => entry.Subject.Id, StringComparer.Ordinal)];

    private IEnumerable<ScheduleEntry> Of(AreaFacts area)
    {
        if (area.Area.FirstSprayAt is { } first)
        {
            yield return Entry(area, first, "clock-first-spray");
        }

        if (area.Area.LastSprayAt is not { } last)
        {
            yield break;
        }

        yield return Entry(area, last, "clock-last-spray");
        foreach (var reentry in network.Requirements.OfType<ReentryRequirement>().Where(requirement => requirement.ReasonNotAsked(area) is null))
        {
            var stayOut = reentry.StayOutOf(area);
            var needed = stayOut.Longest?.As<Duration>();
            var planned = reentry.PlannedAfter(area.Area);
            // Nobody comes back sooner than is needed, nor sooner than the plan says.
            var wait = needed is null || planned > needed ? planned : needed;
            if (wait is { } after && stayOut.NeverClearsOf is null)
            {
                yield return Entry(area, SiteClock.After(last, after), stayOut.IsKnown ? reentry.ClockKey : $"{reentry.ClockKey}-at-least");
            }
        }
    }

    private ScheduleEntry Entry(AreaFacts area, DateTimeOffset at, string key)
    {
        var zone = job.Plan.TimeZone;
        return new ScheduleEntry(area.Subject, SiteClock.Local(at, zone), SiteClock.Show(at, zone), network.Book.Texts[key]);
    }
}
