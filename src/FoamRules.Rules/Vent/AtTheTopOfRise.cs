using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Vent;

/// <summary>
/// vent.at-the-top-of-rise: the highest vent of each compartment is at the planned top of the foam or above it. A hole in a
/// side cannot sit at a cap, so the rule set says how far below the top still counts as at it.
/// </summary>
public sealed class AtTheTopOfRise : FillRequirement
{
    private readonly Limit _belowTop;

    /// <summary>The requirement as the rule sets state it.</summary>
    public AtTheTopOfRise(RequirementSpec spec)
        : base(spec)
    {
        _belowTop = Need("below-top");
        _ = _belowTop.As<Length>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.TrappedAir;

    /// <inheritdoc/>
    protected override string? WhyNot(Facts.FillFacts bearer) => bearer.Fill.VentHoles is { Holes.IsEmpty: true } ? "no-vent" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var (fill, field) = (numbers.Fill, nameof(CavityFill.VentHoles));
        if (fill.VentHoles is not { } vents)
        {
            return Verdict.Missing(fill, field);
        }

        if (Gaps.Of(vents.Holes.Where(hole => hole.Height is null).Select(hole => Verdict.Missing(hole, nameof(Hole.Height)))) is { } unplaced)
        {
            return unplaced;
        }

        return InEachSpace(numbers, space =>
        {
            var holes = numbers.HolesIn(space, vents, field).Value;
            if (holes.IsEmpty)
            {
                // That a compartment has no vent is said by vent.air-can-leave.
                return Verdict.NotApplicable("no-vent");
            }

            var highest = holes.Select(hole => hole.Height!.Value).OrderDescending().First();
            return Hold(space.To - highest, _belowTop).With("vent", highest).With("top", space.To).On(fill, field);
        });
    }
}
