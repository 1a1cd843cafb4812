using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using CalculatedShot = FoamRules.Calculations.TestShot;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.output-fits-test-shots: the planned seconds of each shot lie inside the interval that today's test shots give for its
/// share of the compartment, that interval is narrow enough, and the shot lies near the tested seconds. Shots that overflowed
/// are left out of the line.
/// </summary>
public sealed class OutputFitsTestShots(RequirementSpec spec) : FillRequirement(spec)
{
    private readonly TestedSeconds _tested = new(spec);

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenVoid;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var shots = TestedSeconds.ShotsOf(numbers);
        if (shots.Gap is { } gap)
        {
            return gap;
        }

        var line = _tested.Line(shots.Value);
        return line.HasValue
            ? InEachSpace(numbers, space => InSpace(numbers, space, shots.Value, line.Value))
            : Verdict.OutOfRange(line.Refusal!);
    }

    private Verdict InSpace(FillNumbers numbers, FillSpace space, ImmutableArray<CalculatedShot> tests, Calculations.ShotCalibration line)
    {
        var shots = numbers.ShotsInto(space);
        if (shots.Gap is { } gap)
        {
            return gap;
        }

        // Each shot opens the gun anew, so the lag counts in each; what comes after it is its share of the compartment.
        var foaming = shots.Value.Sum(shot => (shot.Time - line.Lag).Seconds);
        return Verdict.Worst(shots.Value.Select(shot =>
        {
            var share = (shot.Time - line.Lag).Seconds / foaming;
            return OneShot(numbers, shot.Time, space.Length * share, tests, line).On(shot.Shot, nameof(Shot.TriggerTime), shot.Time);
        }));
    }

    private Verdict OneShot(FillNumbers numbers, Duration planned, Length height, ImmutableArray<CalculatedShot> tests, Calculations.ShotCalibration line)
    {
        var beyond = _tested.BeyondTested.As<Ratio>().DecimalFractions;
        var (shortest, longest) = (line.ShortestTested * (1 - beyond), line.LongestTested * (1 + beyond));
        var near = Inside(planned, shortest, longest, _tested.BeyondTested).Saying("far-from-tested");
        if (near.Outcome != Outcome.Met)
        {
            return near;
        }

        var time = _tested.For(height, tests, numbers.Fill.TestShots!.OutputSpread);
        if (!time.HasValue)
        {
            return Verdict.OutOfRange(time.Refusal!);
        }

        var narrow = Hold(time.Value.HalfWidthShare, _tested.HalfWidth).Saying("too-wide")
            .With("more", time.Value.MoreShotsToNarrowEnough is { } more ? Measure.OfCount(more) : Spoken.Word("many"));
        var inside = Inside(planned, time.Value.Low, time.Value.High, _tested.Confidence);
        return Verdict.Worst([inside, narrow, near]).With("aim", time.Value.Aim).Worked(time.Steps);
    }

    private static Verdict Inside(Duration planned, Duration low, Duration high, Limit limit)
    {
        var above = Hold(planned, limit.Amounting(low, Tighter.Higher));
        var below = Hold(planned, limit.Amounting(high, Tighter.Lower));
        return Verdict.Worst([above, below]).With("low", Measure.AtLeast(low)).With("high", Measure.AtMost(high));
    }
}
