using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Vent;

/// <summary>
/// vent.hole-small-for-section: each drilled hole takes at most the engineer's share of the flat width of the narrower face;
/// where the engineer gives none, the rule set's share only reminds.
/// </summary>
public sealed class HoleSmallForSection : FillRequirement
{
    private readonly Limit _reminder;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HoleSmallForSection(RequirementSpec spec)
        : base(spec)
    {
        _reminder = Need("share-of-flat");
        _ = _reminder.As<Ratio>();
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
        if (Gaps.Of(holes.Gap, numbers.Section.Gap) is { } gap)
        {
            return gap;
        }

        var section = numbers.Section.Value;
        var flat = section.FlatOnDepth < section.FlatOnWidth ? section.FlatOnDepth : section.FlatOnWidth;
        if (flat <= Length.Zero)
        {
            return Verdict.NotApplicable("round");
        }

        var share = numbers.Fill.HoleLimits?.MaxShareOfFlatWidth;
        var limit = share is { } given ? PlanLimit.Of(numbers.Fill.HoleLimits!, nameof(HoleLimits.MaxShareOfFlatWidth), given, Tighter.Lower, SourceStatus.DataSheet) : _reminder;
        var worst = Verdict.Worst(holes.Value.Select(hole => Hold(Ratio.FromDecimalFractions(hole.Diameter!.Value / flat), limit)
            .With("hole", hole.Diameter.Value).With("flat", flat).On(hole, nameof(Hole.Diameter), hole.Diameter.Value).Worked(numbers.Section.Steps)));
        return share is null ? worst.AtTier("no-engineer").Saying("no-engineer") : worst;
    }
}
