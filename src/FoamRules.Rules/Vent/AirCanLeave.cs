using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Vent;

/// <summary>vent.air-can-leave: each compartment has an opening besides the one that the nozzle fills, so that air can leave.</summary>
public sealed class AirCanLeave(RequirementSpec spec) : FillRequirement(spec)
{
    private readonly Limit _openings = spec.Limits["openings"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.TrappedAir;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var fill = numbers.Fill;
        if (fill.VentHoles is not { } vents)
        {
            return Verdict.Missing(fill, nameof(CavityFill.VentHoles));
        }

        // An open joint counts only if somebody measured it: a joint that is thought to be open is not known to be.
        if (vents.Holes.FirstOrDefault(hole => hole is { Diameter: null, OpenArea: null }) is { } unmeasured)
        {
            return Verdict.Missing(unmeasured, nameof(Hole.Diameter));
        }

        return fill.Compartments.Length <= 1
            ? Hold(vents.Holes.Length, _openings).On(fill, nameof(CavityFill.VentHoles)).With("compartment", Spoken.Word("the cavity"))
            : InEachSpace(numbers, space =>
            {
                var openings = numbers.HolesIn(space, vents, nameof(CavityFill.VentHoles));
                return openings.Gap ?? Hold(openings.Value.Length, _openings).On(fill, nameof(CavityFill.VentHoles));
            });
    }
}
