using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Vent;

/// <summary>vent.fill-hole-takes-nozzle: each fill hole is as wide as the nozzle and some clearance.</summary>
public sealed class FillHoleTakesNozzle : Requirement<FillFacts>
{
    private readonly Limit _clearance;

    /// <summary>The requirement as the rule sets state it.</summary>
    public FillHoleTakesNozzle(RequirementSpec spec)
        : base(spec)
    {
        _clearance = Need("clearance");
        _ = _clearance.As<Length>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HolesInMember;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        var (fill, gear) = (bearer.Fill, bearer.Job.Gear);
        if (fill.FillHoles is not { } holes)
        {
            return Verdict.Missing(fill, nameof(CavityFill.FillHoles));
        }

        if (holes.Holes.IsEmpty)
        {
            return Verdict.NotMet("no-fill-hole").On(fill, nameof(CavityFill.FillHoles));
        }

        if (gear.NozzleDiameter is not { } nozzle)
        {
            return Verdict.Missing(gear, nameof(Gear.NozzleDiameter));
        }

        return Verdict.Worst(holes.Holes.Select(hole => hole.Diameter is { } diameter
            ? Hold(diameter - nozzle, _clearance).With("hole", diameter).With("nozzle", nozzle).With("needed", Measure.AtLeast(nozzle + _clearance.As<Length>())).On(hole, nameof(Hole.Diameter), diameter)
            : Verdict.Missing(hole, nameof(Hole.Diameter))));
    }
}
