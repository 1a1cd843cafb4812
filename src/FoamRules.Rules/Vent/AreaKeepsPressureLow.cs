using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Vent;

/// <summary>
/// vent.area-keeps-pressure-low: the pressure of the air that leaves at the fastest rise is at most what the weakest wall
/// holds. Walls that the rule set lists need no stated value; their vents must still pass the air at all.
/// </summary>
public sealed class AreaKeepsPressureLow(RequirementSpec spec) : FillRequirement(spec)
{
    private readonly WallKinds _strong = new(spec.Limits["walls-without-a-value"]);

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PressureInCavity;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(Facts.FillFacts bearer) => bearer.Fill.VentHoles is { Holes.IsEmpty: true } ? "no-vent" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var fill = numbers.Fill;
        if (fill.WallHolds is not { } holds)
        {
            return fill.WeakestWall is not { } wall ? Verdict.Missing([new FieldRef(fill, nameof(CavityFill.WallHolds)), new FieldRef(fill, nameof(CavityFill.WeakestWall))])
                : _strong.Contains(wall) ? InEachSpace(numbers, space => Passes(numbers, space))
                : Verdict.Missing(fill, nameof(CavityFill.WallHolds));
        }

        var limit = PlanLimit.Of(fill, nameof(CavityFill.WallHolds), holds, Tighter.Lower, SourceStatus.DataSheet);
        return InEachSpace(numbers, space =>
        {
            var back = numbers.AirPressure(space);
            if (back.Gap is { } gap)
            {
                return gap;
            }

            var needed = numbers.VentFor(holds);
            return Hold(back.Value, limit).On(fill, nameof(CavityFill.VentHoles)).Worked(back.Steps)
                .With("needed", needed.Gap is null ? Measure.AtLeast(needed.Value) : Spoken.Word("a much larger"))
                .RestingOn(Parameters.PeakRiseFactor).RestingOn(Parameters.DischargeCoefficient);
        });
    }

    private static Verdict Passes(FillNumbers numbers, FillSpace space) =>
        numbers.AirPressure(space).Gap ?? Verdict.Met().On(numbers.Fill, nameof(CavityFill.VentHoles));
}
