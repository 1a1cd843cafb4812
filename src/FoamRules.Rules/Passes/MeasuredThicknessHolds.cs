using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using ThicknessSurvey = FoamRules.Model.ThicknessSurvey;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.measured-thickness-holds: at close-out the mean of the depths reaches the thickness that is specified, none lies below
/// it by more than the tolerance, none lies above the greatest thickness of the foam's fire reports, and there are enough depths
/// for the area (calculation 4.15). How sure the mean is stands with it and decides nothing: the mean is the acceptance test.
/// Which report covers this work, and the rule above 4 in, are asked by fire.tested-thickness-covers.
/// </summary>
public sealed class MeasuredThicknessHolds : Requirement<SprayFacts>
{
    private readonly Limit _least, _areaPerDepth;
    private readonly ThicknessSettings _settings;

    /// <summary>The requirement as the rule sets state it.</summary>
    public MeasuredThicknessHolds(RequirementSpec spec)
        : base(spec)
    {
        (_least, _areaPerDepth) = (Need("depths"), Need("area-per-depth"));
        _settings = new ThicknessSettings(
            ThicknessTest.Mean, Need("confidence").As<Ratio>(), Need("precision").As<Length>(), (int)_least.Count, _areaPerDepth.As<Area>());
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

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

    private IEnumerable<Verdict> Specified(ThicknessSurvey survey, SprayApplication spray)
    {
        if (Hold(survey.Depths.Length, _least).Saying("too-few") is { Outcome: Outcome.NotMet } few)
        {
            return [few];
        }

        // Where the area is not given, how many it needs stays open; the rest of the survey does not rest on it.
        var summary = FoamRules.Calculations.ThicknessSurvey.Summarize(survey.Depths, spray.Area ?? _settings.AreaPerReading, _settings);
        return summary.HasValue
            ? [.. Thickness(survey, spray, summary.Value).Select(verdict => verdict.Worked(summary.Steps)), Enough(spray, summary.Value)]
            : [Verdict.OutOfRange(summary.Refusal!)];
    }

    private Verdict Enough(SprayApplication spray, ThicknessResult summary) => spray.Area is { } area
        ? Hold(summary.Readings, _least with { Value = Measure.OfCount(summary.ReadingsForArea) }).Saying("too-few").RestingOn(_areaPerDepth).On(spray, nameof(SprayApplication.Area), area)
        : Verdict.Missing(spray, nameof(SprayApplication.Area));

    private static IEnumerable<Verdict> Thickness(ThicknessSurvey survey, SprayApplication spray, ThicknessResult summary)
    {
        if (spray.Thickness is not { } specified)
        {
            yield return Verdict.Missing(spray, nameof(SprayApplication.Thickness));
            yield break;
        }

        var limit = PlanLimit.Of(spray, nameof(SprayApplication.Thickness), specified, Tighter.Higher);
        yield return Hold(summary.Mean, limit).Saying("mean").With("sure", Measure.AtMost(summary.LowerBoundOfMean));
        yield return Thinnest(survey, summary.Minimum, limit, specified);
    }

    private static Verdict Thinnest(ThicknessSurvey survey, Length thinnest, Limit specifiedLimit, Length specified)
    {
        var exact = Hold(thinnest, specifiedLimit);
        if (exact.Outcome == Outcome.Met)
        {
            return exact;
        }

        return survey.Tolerance is { } tolerance
            ? Hold(thinnest, PlanLimit.Of(survey, nameof(ThicknessSurvey.Tolerance), specified, Tighter.Higher).Amounting(specified - tolerance)).Saying("thin-spot")
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
