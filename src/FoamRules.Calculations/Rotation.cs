using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;
using static FoamRules.Calculations.Line;

namespace FoamRules.Calculations;

/// <summary>A hole to pour through. Holes are listed in the order in which one walks past them.</summary>
/// <param name="Name">The hole; no two alike.</param>
/// <param name="Compartment">The compartment it opens into; several holes may share one.</param>
/// <param name="Shots">How long each pour through it lasts, in order; each above 0.</param>
/// <param name="CoolingBelow">Cooling time of the foam of a pour in this compartment (calculation 4.4); null when it does not count.</param>
public sealed record FillHole(string Name, string Compartment, ImmutableArray<Duration> Shots, Duration? CoolingBelow = null);

/// <summary>What a return to a compartment has to wait for. The factor is the rule set's.</summary>
/// <param name="FullRise">Full-rise time seen in today's shots, above 0.</param>
/// <param name="RiseFactor">How many full-rise times to wait, 1 to 10.</param>
/// <param name="SheetWait">The data sheet's wait between pours; null when it gives none.</param>
/// <param name="Walk">Walking time between neighbouring holes, hose and all; 0 or more.</param>
/// <param name="RoundTo">Waits are rounded up to whole multiples of this; 0 leaves them.</param>
public sealed record RotationSettings(Duration FullRise, double RiseFactor, Duration? SheetWait, Duration Walk, Duration RoundTo);

/// <summary>One pour of the timetable, counted from the start of the first.</summary>
/// <param name="Hole">The hole.</param>
/// <param name="Compartment">The compartment.</param>
/// <param name="Pour">The how-maniest pour in this compartment, from 1.</param>
/// <param name="Start">Its start.</param>
/// <param name="End">Its end.</param>
/// <param name="SinceLast">Time since the last pour in this compartment ended; null for the first.</param>
/// <param name="Pause">Time spent standing at the hole before it.</param>
public sealed record RotationShot(string Hole, string Compartment, int Pour, Duration Start, Duration End, Duration? SinceLast, Duration Pause);

/// <summary>A timetable of holes that never returns to a compartment too soon.</summary>
/// <param name="Works">True when the rotation itself gives the waits; false when the crew has to stand and wait, or pour once.</param>
/// <param name="CompartmentsInTurn">How many compartments are gone round before the first comes again.</param>
/// <param name="Wait">When no rotation works: the longest pause, rounded up; else null.</param>
/// <param name="Shots">The timetable; where no rotation works, with its pauses.</param>
/// <param name="RequiredWaits">The wait that each compartment asks for, by name.</param>
public sealed record RotationPlan(
    bool Works, int CompartmentsInTurn, Duration? Wait, ImmutableArray<RotationShot> Shots, ImmutableSortedDictionary<string, Duration> RequiredWaits);

/// <summary>
/// Calculation 4.7: in which order to pour. A compartment is returned to only after
/// wait = max(factor × full rise, sheet's wait, cooling of the foam below), counted from the end of the last shot in it.
/// Proposed is the shortest turn (fewest compartments, then back to the first) whose walking and pouring alone fill the wait.
/// Above a 2 to 3 in tube the cooling governs: the return is then for the next compartment or for a top-up on cooled foam.
/// Source: common practice (a few holes, then back to the first), no source.
/// </summary>
public static class Rotation
{
    private const string Source = "common practice, no source";

    /// <summary>The timetable.</summary>
    /// <param name="holes">The holes in walking order, 1 to 1000.</param>
    /// <param name="settings">What a return has to wait for.</param>
    public static Calculated<RotationPlan> Plan(ImmutableArray<FillHole> holes, RotationSettings settings)
    {
        if (Bad(holes, settings) is { } refusal)
            return Calculated<RotationPlan>.Refuse(refusal);

        var compartments = Compartments(holes, settings);
        RotationShot[]? shots = null;
        var turn = 0;
        while (++turn <= compartments.Length)
        {
            shots = Walk(compartments, turn, settings);
            if (shots.All(shot => shot.Pause.Seconds <= 0))
                break;
        }

        var works = turn <= compartments.Length;
        var wait = works ? (Duration?)null : Rounding.Up(shots!.Max(shot => shot.Pause), settings.RoundTo);
        var plan = new RotationPlan(
            works, Math.Min(turn, compartments.Length), wait, [.. shots!],
            compartments.ToImmutableSortedDictionary(compartment => compartment.Name, compartment => compartment.Wait, StringComparer.Ordinal));
        return Calculated<RotationPlan>.From(plan,
        [
            .. compartments.Select(compartment => Of(
                $"wait before returning to {compartment.Name}", "max(f × rise, sheet's wait, cooling below), rounded up", compartment.Wait, Source,
                In("f", "factor on full rise", settings.RiseFactor), In("rise", "full rise seen today", settings.FullRise),
                Given("sheet", "sheet's wait", settings.SheetWait), Given("cooling", "cooling of the foam below", compartment.Cooling))),
            wait is { } longest
                ? Of("no rotation of these holes works", "longest pause at a hole; or pour once", longest, Source, In("walk", "between neighbouring holes", settings.Walk))
                : Of("compartments in turn", "fewest whose walking and pouring fill every wait", Measure.OfCount(plan.CompartmentsInTurn), Source, In("walk", "between neighbouring holes", settings.Walk)),
        ]);
    }

    /// <summary>
    /// The timetable of a rotation that goes round a given number of compartments before it comes back to the first, with the
    /// pauses that it needs; <see cref="RotationPlan.Works"/> where it needs none.
    /// </summary>
    /// <param name="holes">The holes in walking order, 1 to 1000.</param>
    /// <param name="compartmentsInTurn">How many compartments in a turn, at least 1; no more than there are.</param>
    /// <param name="settings">What a return has to wait for.</param>
    public static Calculated<RotationPlan> InTurnsOf(ImmutableArray<FillHole> holes, int compartmentsInTurn, RotationSettings settings)
    {
        if ((Bad(holes, settings) ?? Gate.Count("compartments in turn", compartmentsInTurn, 1, "at least 1", "a turn goes round something")) is { } refusal)
            return Calculated<RotationPlan>.Refuse(refusal);
        var compartments = Compartments(holes, settings);
        var turn = Math.Min(compartmentsInTurn, compartments.Length);
        var shots = Walk(compartments, turn, settings);
        var pause = shots.Max(shot => shot.Pause);
        var works = pause.Seconds <= 0;
        var waits = compartments.ToImmutableSortedDictionary(compartment => compartment.Name, compartment => compartment.Wait, StringComparer.Ordinal);
        return Calculated<RotationPlan>.From(
            new RotationPlan(works, turn, works ? null : Rounding.Up(pause, settings.RoundTo), [.. shots], waits),
            Of("longest pause at a hole", $"{turn} compartments in turn; from the end of one shot to the start of the next", pause, Source, In("walk", "between neighbouring holes", settings.Walk)));
    }

    private static Compartment[] Compartments(ImmutableArray<FillHole> holes, RotationSettings settings) =>
        [.. holes.Index().GroupBy(hole => hole.Item.Compartment, StringComparer.Ordinal).Select(group => Compartment.Of(group.Key, group, settings))];

    private static Term Given(string symbol, string meaning, Duration? value) =>
        value is { } duration ? In(symbol, meaning, duration) : new Term(symbol, meaning, Measure.OfText("not given"));

    /// <summary>Goes round the compartments in turns of a size (what is left over joins the last turn), pausing where it must.</summary>
    private static RotationShot[] Walk(Compartment[] compartments, int size, RotationSettings settings)
    {
        var shots = new List<RotationShot>();
        var ended = new Dictionary<string, Duration>(StringComparer.Ordinal);
        var (now, at) = (Duration.Zero, -1);
        var turns = compartments.Length / size;
        for (var turn = 0; turn < turns; turn++)
        {
            var group = compartments[(turn * size)..(turn + 1 == turns ? compartments.Length : (turn + 1) * size)];
            for (var pour = 0; pour < group.Max(compartment => compartment.Pours.Count); pour++)
            {
                foreach (var compartment in group.Where(compartment => pour < compartment.Pours.Count))
                {
                    var (index, hole, length) = compartment.Pours[pour];
                    if (at >= 0)
                        now += settings.Walk * Math.Abs(index - at);
                    var pause = Duration.Zero;
                    Duration? since = null;
                    if (ended.TryGetValue(compartment.Name, out var last))
                    {
                        var ready = last + compartment.Wait;
                        if (now < ready)
                            (pause, now) = (ready - now, ready);
                        since = now - last;
                    }

                    shots.Add(new RotationShot(hole, compartment.Name, pour + 1, now, now + length, since, pause));
                    now += length;
                    (at, ended[compartment.Name]) = (index, now);
                }
            }
        }

        return [.. shots];
    }

    private static Refusal? Bad(ImmutableArray<FillHole> holes, RotationSettings settings)
    {
        if (holes.IsDefaultOrEmpty || holes.Length > 1000)
            return new Refusal("holes", Measure.OfCount(holes.IsDefault ? 0 : holes.Length), "1 to 1000", "there is nothing to go round");
        var bad = Gate.Inside("full rise", settings.FullRise, settings.FullRise.Hours, 0, 24, "above 0 s and below a day, as seen in today's shots", "there is no default rise time")
            ?? Gate.Number("factor on full rise", settings.RiseFactor, 1, 10, "1 to 10", "less is a return onto rising foam")
            ?? Gate.Between("walking time", settings.Walk, settings.Walk.Hours, 0, 24, "0 to 24 h", "time runs forward")
            ?? Gate.Between("rounding of waits", settings.RoundTo, settings.RoundTo.Hours, 0, 24, "0 to 24 h", "a step of the clock")
            ?? (settings.SheetWait is { } wait ? Gate.Between("sheet's wait", wait, wait.Days, 0, 60, "0 to 60 days", "time runs forward") : null);
        foreach (var hole in holes)
        {
            if (hole.Shots.IsDefaultOrEmpty)
                bad ??= new Refusal($"shots of {hole.Name}", Measure.OfCount(0), "at least one", "a hole is there to pour through");
            else
                foreach (var shot in hole.Shots)
                    bad ??= Gate.Inside($"shot of {hole.Name}", shot, shot.Hours, 0, 24, "above 0 s and below a day", "a pour takes time");
            if (hole.CoolingBelow is { } cooling)
                bad ??= Gate.Between($"cooling below {hole.Name}", cooling, cooling.Days, 0, 60, "0 to 60 days", "time runs forward");
        }

        return bad ?? (holes.GroupBy(hole => hole.Name, StringComparer.Ordinal).FirstOrDefault(group => group.Count() > 1) is { } twice
            ? new Refusal("holes", Measure.OfText(twice.Key), "each named once", "the timetable has to tell them apart")
            : null);
    }

    /// <summary>A compartment with its pours in order: hole after hole, shot after shot.</summary>
    private sealed record Compartment(string Name, Duration Wait, Duration? Cooling, List<(int Index, string Hole, Duration Length)> Pours)
    {
        public static Compartment Of(string name, IEnumerable<(int Index, FillHole Item)> holes, RotationSettings settings)
        {
            var list = holes.ToList();
            var cooling = list.Select(hole => hole.Item.CoolingBelow).OrderDescending().First();
            var wait = new[] { settings.FullRise * settings.RiseFactor, settings.SheetWait ?? Duration.Zero, cooling ?? Duration.Zero }.Max();
            return new Compartment(name, Rounding.Up(wait, settings.RoundTo), cooling, [.. list.SelectMany(hole => hole.Item.Shots.Select(shot => (hole.Index, hole.Item.Name, shot)))]);
        }
    }
}
