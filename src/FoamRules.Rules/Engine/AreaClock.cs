using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using FoamRules.Rules.Air;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Passes;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>
/// What happens when in each area, on the site's clock: the first spray, the passes or pours where their times follow from the plan, the last spray at which the purge clock starts, and before
/// which time nobody comes back. Waits are rounded up. Where the wait is not known in full, the words say that the time is not enough;
/// where the air never clears there is no time to give.
/// </summary>
internal sealed class AreaClock(JobFacts job, RuleNetwork network, Wording wording)
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

        foreach (var entry in job.AsBuilt ? [] : Passes(area).Concat(Pours(area)))
        {
            yield return entry;
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

    // Worked out from the shift, the time a pass takes and the waits.
    private IEnumerable<ScheduleEntry> Passes(AreaFacts area)
    {
        var days = network.Requirements.OfType<DayHasTime>().Where(requirement => requirement.ReasonNotAsked(area) is null)
            .Select(requirement => requirement.DaysOf(area)).FirstOrDefault();
        if (days is not { Gap: null })
        {
            yield break;
        }

        var passes = days.Value.Passes.ToDictionary(pass => pass.Id);
        foreach (var step in days.Value.Shifts.SelectMany(shift => shift.Steps))
        {
            if (passes.TryGetValue(step.Id, out var pass))
            {
                yield return pass.Number == 1
                    ? Entry(pass.Work, step.Start, "clock-pass", ("number", "1"))
                    : Entry(pass.Work, step.Start, "clock-pass-again", ("number", Count(pass.Number)), ("wait", wording.Show(pass.WaitBefore)));
            }
        }

        foreach (var cleared in days.Value.Shifts.SelectMany(shift => shift.Clearances))
        {
            yield return Entry(area, cleared.Cleared, "clock-fans");
        }
    }

    // The first turn of the rotation: the others go alike. Its times are known where nothing else is worked in the area.
    private IEnumerable<ScheduleEntry> Pours(AreaFacts area)
    {
        if (area.Area.FirstSprayAt is not { } first || area.Work is not [FillFacts fill] || WaitCoversFullRise.HasOneShotEach(fill)
            || network.Numbers.Rotation.Timetable(fill) is not { Gap: null } plan)
        {
            return [];
        }

        var shots = plan.Value.Shots;
        var turn = shots.TakeWhile(shot => shot.Pour == 1).Select(shot => shot.Compartment).ToHashSet(StringComparer.Ordinal);
        return shots.TakeWhile(shot => turn.Contains(shot.Compartment))
            .Select(shot => Entry(
                fill, first + shot.Start.ToTimeSpan(), shot.Pour == 1 ? "clock-pour" : "clock-pour-again",
                ("number", Count(shot.Pour)), ("hole", wording.Text("numbered-cavity", ("number", shot.Hole[(shot.Hole.IndexOf(' ', StringComparison.Ordinal) + 1)..]))), ("wait", wording.Show(plan.Value.RequiredWaits[shot.Compartment]))));
    }

    private ScheduleEntry Entry(Bearer bearer, DateTimeOffset at, string key, params (string Word, string Value)[] words)
    {
        var zone = job.Plan.TimeZone;
        return new ScheduleEntry(bearer.Subject, SiteClock.Local(at, zone), wording.Show(at, zone), wording.Text(key, words));
    }

    private static string Count(int number) => number.ToString(CultureInfo.InvariantCulture);
}
