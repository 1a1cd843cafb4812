using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.wall-holds-pressure: the pressure of the rise, of the air that leaves and of the foam that is held, is at most what
/// the weakest wall holds. A wall of which no value is stated is not known to hold, unless the rule set lists its kind.
/// </summary>
public sealed class WallHoldsPressure : FillRequirement
{
    private readonly WallKinds _strong;

    /// <summary>The requirement as the rule sets state it.</summary>
    public WallHoldsPressure(RequirementSpec spec)
        : base(spec) => _strong = new WallKinds(Need("walls-without-a-value"));

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PressureInCavity;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var fill = numbers.Fill;
        if (fill.WallHolds is not { } holds)
        {
            return fill.WeakestWall is not { } wall ? Verdict.Missing([new FieldRef(fill, nameof(CavityFill.WallHolds)), new FieldRef(fill, nameof(CavityFill.WeakestWall))])
                : _strong.Contains(wall) ? Verdict.Met().On(fill, nameof(CavityFill.WeakestWall))
                : Verdict.Missing(fill, nameof(CavityFill.WallHolds));
        }

        var limit = PlanLimit.Of(fill, nameof(CavityFill.WallHolds), holds, Tighter.Lower, SourceStatus.DataSheet);
        var sheet = numbers.Facts.Sheet;
        var foam = sheet.FoamPressure is { } pressure
            ? Hold(pressure, limit).Saying("foam").On(sheet, nameof(Product.FoamPressure), pressure)
            : Verdict.Missing(sheet, nameof(Product.FoamPressure));
        var air = InEachSpace(numbers, space =>
        {
            var back = numbers.AirPressure(space);
            return back.Gap ?? Hold(back.Value, limit).Saying("air").Worked(back.Steps);
        });
        return Verdict.Worst([foam, air]);
    }
}
