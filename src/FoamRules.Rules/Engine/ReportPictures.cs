using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Pictures;
using FoamRules.Rules.Air;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Passes;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>
/// The pictures of a report: heat in the passes, the air after spraying, each cavity with its holes, shots and foam, and the
/// test shots. What is not known or was refused is not drawn; the findings say what is missing.
/// </summary>
internal sealed class ReportPictures(RuleNetwork network, JobFacts job, Wording wording)
{
    private static readonly Duration LongestShown = Duration.FromDays(14), LeastShown = Duration.FromHours(1), ShownWithoutEnd = Duration.FromDays(2);

    private readonly NumberRules _rules = network.Numbers;
    private readonly PictureWords _words = new(wording.Style, key => wording.Book.Texts.GetValueOrDefault(key));

    /// <summary>All pictures: those of the work in the plan's order, then those of the areas.</summary>
    public ImmutableArray<Picture> All() => [.. job.Work.SelectMany(OfWork), .. job.Areas.SelectMany(Air)];

    private IEnumerable<Picture> OfWork(WorkFacts work) => work switch
    {
        FillFacts fill => OfFill(fill),
        SprayFacts spray => Drawn(spray, "heat", Heat(spray)),
        _ => [],
    };

    private string? Heat(SprayFacts spray)
    {
        var count = spray.Spray.Passes.Length;
        var rise = _rules.Heat.RiseOf(spray.Sheet);
        if (count == 0 || !rise.HasValue || SprayHeat.Unknown(spray, count).Any())
        {
            return null;
        }

        var plan = new SprayHeat(spray, _rules.Heat).Planned(count, rise.Value.Likely);
        var run = PassHeat.Simulate(plan);
        // Long enough to see it cool, short enough to see it heat.
        return run.HasValue ? ValueOf(CalculationPicture.PassTemperatures(plan with { Horizon = Within(run.Value.LongestHotInAll * 2) }, wording.Units, _words)) : null;
    }

    private IEnumerable<Picture> Air(AreaFacts area)
    {
        var reentries = network.Requirements.OfType<ReentryRequirement>().Where(requirement => requirement.ReasonNotAsked(area) is null).ToList();
        // People without protection stay out until the strictest level is reached.
        var purges = area.Area.AirborneLevels.Where(PurgeOfLevel.IsGiven)
            .Select(level => reentries.Select(requirement => requirement.PurgeOf(area, level)).Where(purge => purge.Case is not null)
                .MinBy(purge => purge.Limit!.Value.MilligramsPerCubicMeter))
            .OfType<PurgeOfLevel>().ToList();
        var moments = reentries.Select(requirement => (After: requirement.PlannedAfter(area.Area), Words: wording.Text($"picture-{requirement.ClockKey}")))
            .Where(moment => moment.After is not null).Select(moment => (moment.After!.Value, moment.Words)).ToList();
        foreach (var (purge, index) in purges.Select((purge, index) => (purge, index)))
        {
            var clears = purge.Time is { HasValue: true, Value: PurgeTime.StaysBelowFrom below } ? below.Time : ShownWithoutEnd;
            var longest = moments.Select(moment => moment.Value).Append(clears).MaxBy(time => time.Seconds);
            var name = index == 0 ? "air" : string.Create(CultureInfo.InvariantCulture, $"air-{index + 1}");
            foreach (var picture in Drawn(area, name, ValueOf(CalculationPicture.Concentration(purge.Case!, purge.Limit!.Value, moments, Within(longest * 1.2), _words))))
            {
                yield return picture;
            }
        }
    }

    private IEnumerable<Picture> OfFill(FillFacts fill)
    {
        var numbers = FillNumbers.Of(fill, _rules.Fill);
        return Drawn(fill, "column", ColumnPicture.Draw(fill.Fill, [.. Levels(numbers)], wording.Units, _words)).Concat(Drawn(fill, "test-shots", TestShots(numbers)));
    }

    // Where the foam of each shot ends, by the mass aimed at; where that is not known, no level is drawn.
    private IEnumerable<(Length Level, string Words)> Levels(FillNumbers numbers)
    {
        if (Gaps.Of(numbers.Spaces.Gap, numbers.FlowFactor.Gap) is not null)
        {
            yield break;
        }

        foreach (var space in numbers.Spaces.Value)
        {
            var shots = numbers.ShotsInto(space);
            var level = space.From;
            foreach (var ((_, time), index) in (shots.Gap is null ? shots.Value : []).Select((shot, index) => (shot, index)))
            {
                var rise = numbers.LikelyRise(time);
                if (rise.Gap is not null)
                {
                    break;
                }

                level = Quantities.Compare(level + rise.Value, space.To) < 0 ? level + rise.Value : space.To;
                yield return (level, wording.Text("picture-pour", ("number", (index + 1).ToString(CultureInfo.InvariantCulture)), ("time", wording.Show(time))));
            }
        }
    }

    private string? TestShots(FillNumbers numbers)
    {
        var tests = TestedSeconds.ShotsOf(numbers);
        if (Gaps.Of(tests.Gap, numbers.Spaces.Gap) is not null)
        {
            return null;
        }

        var space = numbers.Spaces.Value.MaxBy(one => one.Length.Meters)!;
        var shots = numbers.ShotsInto(space);
        var share = space.Length / Math.Max(1, shots.Gap is null ? shots.Value.Length : 1);
        return ValueOf(CalculationPicture.TestShots(tests.Value, share, _rules.TestShots.Settings, wording.Units, _words));
    }

    private static IEnumerable<Picture> Drawn(Bearer bearer, string name, string? svg) => svg is null ? [] : [new Picture(bearer.Subject, name, svg)];

    private static string? ValueOf(Calculated<string> picture) => picture.HasValue ? picture.Value : null;

    private static Duration Within(Duration wanted) => wanted < LeastShown ? LeastShown : wanted > LongestShown ? LongestShown : wanted;
}
