using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using CalculatedShot = FoamRules.Calculations.TestShot;
using ShotTimes = FoamRules.Calculations.TestShots;

namespace FoamRules.Rules.Fill;

/// <summary>What the test shots of a fill say of its seconds (calculation 4.8), by the height that they reached.</summary>
public sealed class TestedSeconds
{
    private readonly ImmutableSortedDictionary<string, Limit> _limits;

    /// <summary>Reads what the rule sets ask of test shots.</summary>
    /// <param name="spec">The requirement fill.output-fits-test-shots.</param>
    /// <exception cref="RuleSetMismatchException">A limit is missing.</exception>
    public TestedSeconds(RequirementSpec spec)
    {
        _limits = spec.Limits;
        Confidence = Need("confidence");
        BeyondTested = Need("beyond-tested");
        HalfWidth = Need("half-width");
        Settings = new TestShotSettings(
            (int)Need("shots").Count, (int)Need("shots-with-declared-spread").Count, Confidence.As<Ratio>(), BeyondTested.As<Ratio>(), HalfWidth.As<Ratio>());

        Limit Need(string name) => _limits.GetValueOrDefault(name) ?? throw new RuleSetMismatchException(spec.Id, $"no rule set gives the limit {name}");
    }

    /// <summary>The confidence of the interval.</summary>
    public Limit Confidence { get; }

    /// <summary>How far beyond the tested seconds a shot may lie.</summary>
    public Limit BeyondTested { get; }

    /// <summary>The widest half-width of the interval.</summary>
    public Limit HalfWidth { get; }

    /// <summary>The same as the calculation takes them.</summary>
    public TestShotSettings Settings { get; }

    /// <summary>The test shots as the calculation takes them; shots that overflowed are marked and left out by it.</summary>
    public static Derived<ImmutableArray<CalculatedShot>> ShotsOf(FillNumbers numbers)
    {
        if (numbers.Fill.TestShots is not { } tests)
        {
            return Derived<ImmutableArray<CalculatedShot>>.Missing(numbers.Fill, nameof(CavityFill.TestShots));
        }

        if (tests.Shots.IsEmpty)
        {
            return Derived<ImmutableArray<CalculatedShot>>.Missing(tests, nameof(Model.TestShots.Shots));
        }

        if (numbers.Spaces.Gap is { } unknown)
        {
            return Derived<ImmutableArray<CalculatedShot>>.Without(unknown);
        }

        var top = numbers.Spaces.Value.Select(space => space.Length).OrderDescending().First();
        return Gaps.Of(tests.Shots.Select(shot => MissingOf(shot, top))) is { } gap
            ? Derived<ImmutableArray<CalculatedShot>>.Without(gap)
            : Derived<ImmutableArray<CalculatedShot>>.Of([.. tests.Shots.Select(shot =>
                new CalculatedShot(shot.TriggerTime!.Value, shot.FillHeight ?? Length.Zero, shot.Overflowed ?? false))]);
    }

    /// <summary>The line through the shots.</summary>
    public Calculated<Calculations.ShotCalibration> Line(ImmutableArray<CalculatedShot> shots) => ShotTimes.Calibrate(shots, Settings);

    /// <summary>The seconds for a height.</summary>
    public Calculated<ShotTime> For(Length height, ImmutableArray<CalculatedShot> shots, Ratio? declaredSpread) =>
        ShotTimes.TimeFor(height, shots, Settings, declaredSpread);

    // Whether a shot that reached the top overflowed is not known unless the plan says so; one that stayed below did not.
    private static Verdict? MissingOf(Model.TestShot shot, Length top) => shot switch
    {
        { TriggerTime: null } => Verdict.Missing(shot, nameof(Model.TestShot.TriggerTime)),
        { FillHeight: null, Overflowed: not true } => Verdict.Missing(shot, nameof(Model.TestShot.FillHeight)),
        { Overflowed: null } when Quantities.Compare(shot.FillHeight!.Value, top) >= 0 => Verdict.Missing(shot, nameof(Model.TestShot.Overflowed)),
        _ => null,
    };
}
