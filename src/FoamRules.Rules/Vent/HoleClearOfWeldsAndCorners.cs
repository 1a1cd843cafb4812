using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Vent;

/// <summary>
/// vent.hole-clear-of-welds-and-corners: the edge of each drilled hole lies outside the section's rounded corners and outside
/// the engineer's keep-out from welds, ends and connections.
/// </summary>
public sealed class HoleClearOfWeldsAndCorners : FillRequirement
{
    private readonly Limit _corner;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HoleClearOfWeldsAndCorners(RequirementSpec spec)
        : base(spec)
    {
        _corner = Need("corner");
        _ = _corner.As<Ratio>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HolesInMember;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(FillFacts bearer) => DrilledHoles.WhyNone(bearer.Fill);

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var holes = DrilledHoles.Of(numbers.Fill);
        return holes.Gap ?? Verdict.Worst(holes.Value.SelectMany(hole => new[] { Corner(numbers, hole), Weld(numbers.Fill, hole) }));
    }

    private Verdict Corner(FillNumbers numbers, Hole hole)
    {
        var fill = numbers.Fill;
        var radius = fill.Section is not null
            ? numbers.Section.Gap is { } gap ? Derived<Length>.Without(gap) : Derived<Length>.Of(numbers.Section.Value.Corner)
            : fill.CornerRadius is { } given ? Derived<Length>.Of(given) : Derived<Length>.Missing(fill, nameof(CavityFill.CornerRadius));
        if (radius.Gap is null && radius.Value <= Length.Zero)
        {
            // A round section has no corners.
            return Verdict.Met();
        }

        if (Gaps.Of(radius.Gap, hole.DistanceToCorner is null ? Verdict.Missing(hole, nameof(Hole.DistanceToCorner)) : null) is { } missing)
        {
            return missing;
        }

        var edge = hole.DistanceToCorner!.Value - (hole.Diameter!.Value / 2);
        return Hold(edge, _corner.Amounting(radius.Value * _corner.As<Ratio>().DecimalFractions)).Saying("corner")
            .On(hole, nameof(Hole.DistanceToCorner), hole.DistanceToCorner.Value);
    }

    private static Verdict Weld(CavityFill fill, Hole hole)
    {
        var keepOut = fill.HoleLimits?.KeepOutFromWelds;
        var noKeepOut = fill.HoleLimits is not { } limits ? Verdict.Missing(fill, nameof(CavityFill.HoleLimits))
            : keepOut is null ? Verdict.Missing(limits, nameof(HoleLimits.KeepOutFromWelds)) : null;
        return Gaps.Of(noKeepOut, hole.DistanceToWeld is null ? Verdict.Missing(hole, nameof(Hole.DistanceToWeld)) : null)
            ?? Hold(hole.DistanceToWeld!.Value, PlanLimit.Of(fill.HoleLimits!, nameof(HoleLimits.KeepOutFromWelds), keepOut!.Value, Tighter.Higher, SourceStatus.DataSheet))
                .Saying("weld").On(hole, nameof(Hole.DistanceToWeld), hole.DistanceToWeld.Value);
    }
}
