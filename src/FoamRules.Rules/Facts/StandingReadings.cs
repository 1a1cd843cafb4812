using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Facts;

/// <summary>
/// The readings that count. A reading stands until a later one at the same named place replaces it, so that a plan can keep the
/// readings of a whole day; one without a place, or dated after "now", replaces nothing.
/// </summary>
public static class StandingReadings
{
    /// <summary>The standing readings of one kind in an area.</summary>
    public static ImmutableArray<Reading> In(AreaFacts area, ReadingKind kind)
    {
        var now = area.Job.Plan.JudgedAt;
        var readings = area.Readings(kind).ToList();
        return [.. readings.Where(reading => !readings.Exists(later => later.At <= now && Replaces(later, reading)))];
    }

    /// <summary>The standing readings of one kind for a piece of work: those that name it, and those that name no work.</summary>
    public static ImmutableArray<Reading> For(WorkFacts work, ReadingKind kind) =>
        [.. In(work.Area, kind).Where(reading => reading.Work is null || reading.Work == work.Item.Id)];

    /// <summary>Undetermined, because a reading was not taken; said under the key <c>no-reading</c>.</summary>
    /// <param name="area">The area.</param>
    /// <param name="what">What should have been read, for the placeholder <c>reading</c>.</param>
    public static Verdict None(AreaFacts area, params ReadOnlySpan<string> what) =>
        Verdict.Missing(area.Area, nameof(WorkArea.Readings)).Saying("no-reading").With("reading", Spoken.List(what.ToArray().Select(Spoken.Word)));

    private static bool Replaces(Reading later, Reading earlier) =>
        later.Place is not null && later.Place == earlier.Place && later.Work == earlier.Work && later.At > earlier.At;
}
