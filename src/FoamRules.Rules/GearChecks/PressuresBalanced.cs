using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.GearChecks;

/// <summary>gear.pressures-balanced: the pressures of both sides, material flowing, differ by no more than the machine's manual or the data sheet allows.</summary>
public sealed class PressuresBalanced(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Gear.PressureCheck is not { } check)
        {
            return Verdict.Missing(bearer.Gear, nameof(Gear.PressureCheck));
        }

        if (check is not { ASide: { } a, BSide: { } b, MaxDifference: { } most })
        {
            return Verdict.Worst(new[]
            {
                (check.ASide, nameof(PressureCheck.ASide)), (check.BSide, nameof(PressureCheck.BSide)), (check.MaxDifference, nameof(PressureCheck.MaxDifference)),
            }.Where(field => field.Item1 is null).Select(field => Verdict.Missing(check, field.Item2)));
        }

        var apart = (a >= b ? a - b : b - a).ToUnit(most.Unit);
        return Hold(apart, PlanLimit.Of(check, nameof(PressureCheck.MaxDifference), most, Tighter.Lower, SourceStatus.DataSheet))
            .On(check, nameof(PressureCheck.ASide), a).On(check, nameof(PressureCheck.BSide), b);
    }
}
