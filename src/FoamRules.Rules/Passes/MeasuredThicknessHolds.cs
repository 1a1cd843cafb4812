using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.measured-thickness-holds: at close-out the mean of the depths reaches the thickness that is specified, none lies below
/// it by more than the tolerance, and none lies above the greatest thickness of the foam's fire reports. How many depths an
/// area needs, and how sure the mean is, comes with that calculation. Which report covers this work, and the rule above 4 in,
/// are asked by fire.tested-thickness-covers.
/// </summary>
public sealed class MeasuredThicknessHolds(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var spray = bearer.Spray;
        if (spray.Survey is not { } survey)
        {
            return Verdict.Missing(spray, nameof(SprayApplication.Survey));
        }

        if (survey.Depths.IsEmpty)
        {
            return Verdict.Missing(survey, nameof(ThicknessSurvey.Depths));
        }

        // Too thick outweighs too thin: it is what burns.
        var deepest = Deepest(survey, bearer.Sheet);
        return (deepest.Outcome == Outcome.NotMet ? deepest : Verdict.Worst([deepest, .. Specified(survey, spray)]))
            .On(survey, nameof(ThicknessSurvey.Depths)).With("readings", survey.Depths.Length);
    }

    private static IEnumerable<Verdict> Specified(ThicknessSurvey survey, SprayApplication spray)
    {
        if (spray.Thickness is not { } specified)
        {
            yield return Verdict.Missing(spray, nameof(SprayApplication.Thickness));
            yield break;
        }

        var limit = PlanLimit.Of(spray, nameof(SprayApplication.Thickness), specified, Tighter.Higher);
        var mean = Length.FromMeters(survey.Depths.Average(depth => depth.Meters));
        yield return Hold(mean, limit).Saying("mean");
        yield return Thinnest(survey, limit, specified);
    }

    private static Verdict Thinnest(ThicknessSurvey survey, Limit specifiedLimit, Length specified)
    {
        var thinnest = survey.Depths.MinBy(depth => depth.Meters);
        var exact = Hold(thinnest, specifiedLimit);
        if (exact.Outcome == Outcome.Met)
        {
            return exact;
        }

        return survey.Tolerance is { } tolerance
            ? Hold(thinnest, PlanLimit.Of(survey, nameof(ThicknessSurvey.Tolerance), specified - tolerance, Tighter.Higher)).Saying("thin-spot")
            : Verdict.Missing(survey, nameof(ThicknessSurvey.Tolerance));
    }

    private static Verdict Deepest(ThicknessSurvey survey, Product sheet)
    {
        var tested = sheet.FireTests.Select(test => test.MaxThickness).Append(sheet.SurfaceBurning?.TestedThickness).OfType<Length>().ToList();
        if (tested.Count == 0)
        {
            return Verdict.Missing(sheet, nameof(Product.FireTests));
        }

        var limit = PlanLimit.Of(sheet, nameof(Product.FireTests), tested.MaxBy(thickness => thickness.Meters), Tighter.Lower, SourceStatus.DataSheet);
        return Hold(survey.Depths.MaxBy(depth => depth.Meters), limit).Saying("over-tested").AtTier("over-tested");
    }
}
