using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.special-approval-fits: the test report that stands in for the code's list covers the work's end use, substrate, density
/// and thickness. Foam thicker than any report is reported by fire.tested-thickness-covers, and recorded here.
/// </summary>
public sealed class SpecialApprovalFits(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => SpecialApproval.IsUsed(bearer) ? null : "no-report-used";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var verdict = SpecialApproval.Judge(bearer);
        // Only where the thickness is all that is wrong or not known.
        return verdict is { Outcome: Outcome.NotMet, Says: "thickness", MissingFields.IsEmpty: true } && IsThickerThanAnyReport(bearer) ? verdict.AtTier("reported-elsewhere") : verdict;
    }

    private static bool IsThickerThanAnyReport(WorkFacts bearer) =>
        ReportedThickness.Greatest(bearer) is { } greatest && FoamThickness.Of(bearer).Value is { } thickness && Quantities.Compare(thickness, greatest.As<UnitsNet.Length>()) > 0;
}
