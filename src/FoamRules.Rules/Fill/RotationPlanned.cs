using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.rotation-planned: the order of the holes itself gives the wait before the nozzle comes back to a compartment. Where it
/// does not, the shortest rotation that does is proposed, or the answer is that none does. Coming back to a compartment is for the
/// rest of its foam on top of foam that has cooled, never for foam that still rises. The wait is the longest of the rise seen, the
/// sheet's and the computed cooling of the foam below; where the sheet gives none, no rotation is promised.
/// </summary>
public sealed class RotationPlanned : FillRequirement
{
    private readonly Limit _fullRises;
    private readonly Duration _roundTo;
    private readonly HeatParameters _heat;

    /// <summary>The requirement as the rule sets state it.</summary>
    public RotationPlanned(RequirementSpec spec)
        : base(spec)
    {
        _fullRises = Need("fill.wait-covers-full-rise.full-rises");
        _ = _fullRises.Factor;
        _roundTo = Need("round-to").As<Duration>();
        _heat = new HeatParameters(spec.Parameters);
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <summary>
    /// The timetable of a fill: the planned rotation where the plan gives one, else the proposed one; why there is none otherwise.
    /// </summary>
    public Derived<RotationPlan> Timetable(FillFacts facts)
    {
        var round = RoundOf(FillNumbers.Of(facts, Parameters));
        if (round.Gap is { } gap)
        {
            return Derived<RotationPlan>.Without(gap);
        }

        var (holes, settings) = round.Value;
        return Derived<RotationPlan>.From(facts.Fill.CompartmentsInTurn is { } turn ? Rotation.InTurnsOf(holes, turn, settings) : Rotation.Plan(holes, settings));
    }

    /// <inheritdoc/>
    protected override string? WhyNot(FillFacts bearer) => WaitCoversFullRise.HasOneShotEach(bearer) ? "one-shot-each" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var round = RoundOf(numbers);
        if (round.Gap is { } gap)
        {
            return gap;
        }

        var (fill, (holes, settings)) = (numbers.Fill, round.Value);
        var best = Rotation.Plan(holes, settings);
        if (!best.HasValue)
        {
            return Verdict.OutOfRange(best.Refusal!);
        }

        if (best.Value.Wait is { } stand)
        {
            return Verdict.NotMet("none-works").With("wait", stand).Worked(best.Steps).On(fill, nameof(CavityFill.Shots));
        }

        if (fill.CompartmentsInTurn is not { } planned)
        {
            return Proposing(Verdict.Missing(fill, nameof(CavityFill.CompartmentsInTurn)).Saying("not-planned"), best);
        }

        var own = Rotation.InTurnsOf(holes, planned, settings);
        return !own.HasValue ? Verdict.OutOfRange(own.Refusal!)
            : own.Value.Wait is { } pause
                ? Proposing(Verdict.NotMet("too-few") with { Value = Measure.OfCount(planned) }, best).With("wait", pause).On(fill, nameof(CavityFill.CompartmentsInTurn), Measure.OfCount(planned))
                : Verdict.Met().On(fill, nameof(CavityFill.CompartmentsInTurn), Measure.OfCount(planned));
    }

    private static Verdict Proposing(Verdict verdict, Calculated<RotationPlan> best) =>
        verdict.With("turn", best.Value.CompartmentsInTurn).Worked(best.Steps);

    private Derived<(ImmutableArray<FillHole> Holes, RotationSettings Settings)> RoundOf(FillNumbers numbers)
    {
        var (fill, sheet) = (numbers.Fill, numbers.Facts.Sheet);
        var pours = numbers.Spaces.Gap is null
            ? numbers.Spaces.Value.Select(space => (Space: space, Shots: numbers.ShotsInto(space), Cooling: WaitCoversFullRise.Cooling(numbers, space, _heat))).ToList()
            : [];
        var gap = Gaps.Of(
        [
            numbers.Spaces.Gap,
            .. pours.Select(pour => pour.Shots.Gap ?? pour.Cooling.Gap),
            fill.Count is null ? Verdict.Missing(fill, nameof(CavityFill.Count)) : null,
            fill.WalkBetweenHoles is null ? Verdict.Missing(fill, nameof(CavityFill.WalkBetweenHoles)) : null,
            fill.TestShots is not { } tests ? Verdict.Missing(fill, nameof(CavityFill.TestShots))
                : tests.FullRiseSeen is null ? Verdict.Missing(tests, nameof(Model.TestShots.FullRiseSeen)) : null,
            sheet.WaitBetweenPours is null ? Verdict.Missing(sheet, nameof(Product.WaitBetweenPours)) : null,
        ]);
        if (gap is not null)
        {
            return Derived<(ImmutableArray<FillHole>, RotationSettings)>.Without(gap);
        }

        // One more than the calculation takes, so that it refuses instead of leaving some out.
        var holes = from cavity in Enumerable.Range(1, fill.Count!.Value)
                    from pour in pours
                    where !pour.Shots.Value.IsEmpty
                    let name = pour.Space.IsOnly ? $"cavity {cavity}" : $"cavity {cavity}.{pour.Space.Number}"
                    select new FillHole(name, name, [.. pour.Shots.Value.Select(shot => shot.Time)], pour.Cooling.Value);
        return Derived<(ImmutableArray<FillHole>, RotationSettings)>.Of(
            ([.. holes.Take(1001)], new RotationSettings(fill.TestShots!.FullRiseSeen!.Value, _fullRises.Factor, sheet.WaitBetweenPours, fill.WalkBetweenHoles!.Value, _roundTo)));
    }
}
