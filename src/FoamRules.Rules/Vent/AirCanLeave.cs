using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Vent;

/// <summary>vent.air-can-leave: each compartment has an opening besides the one that the nozzle fills, so that air can leave.</summary>
public sealed class AirCanLeave(RequirementSpec spec) : Requirement<FillFacts>(spec)
{
    private readonly Limit _openings = spec.Limits["openings"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.TrappedAir;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        var fill = bearer.Fill;
        if (fill.VentHoles is not { } vents)
        {
            return Verdict.Missing(fill, nameof(CavityFill.VentHoles));
        }

        // An open joint counts only if somebody measured it: a joint that is thought to be open is not known to be.
        if (vents.Holes.FirstOrDefault(hole => hole is { Diameter: null, OpenArea: null }) is { } unmeasured)
        {
            return Verdict.Missing(unmeasured, nameof(Hole.Diameter));
        }

        if (bearer.Compartments.Length <= 1)
        {
            return Hold(vents.Holes.Length, _openings).On(fill, nameof(CavityFill.VentHoles)).With("compartment", "the cavity");
        }

        return Verdict.Worst(bearer.Compartments.Select((compartment, index) => InCompartment(compartment, index, vents, fill)));
    }

    private Verdict InCompartment(Compartment compartment, int index, HoleList vents, CavityFill fill)
    {
        if (compartment is not { From: { } from, To: { } to })
        {
            return Verdict.Missing(compartment, compartment.From is null ? nameof(Compartment.From) : nameof(Compartment.To));
        }

        if (vents.Holes.FirstOrDefault(hole => hole.Height is null) is { } unplaced)
        {
            return Verdict.Missing(unplaced, nameof(Hole.Height));
        }

        var openings = vents.Holes.Count(hole => Quantities.Compare(hole.Height!.Value, from) >= 0 && Quantities.Compare(hole.Height.Value, to) <= 0);
        return Hold(openings, _openings).On(fill, nameof(CavityFill.VentHoles)).With("compartment", $"compartment {index + 1}");
    }
}
