using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>
/// The thickness of foam that a fire would meet: the greatest planned, at close-out the greatest as built; in a closed cavity
/// its least inside width.
/// </summary>
/// <param name="Value">The thickness; null where it is not known.</param>
/// <param name="Field">The field that it comes from, or that is missing.</param>
/// <param name="Steps">How it was worked out.</param>
/// <param name="Unknown">Why it is not known; null where it is.</param>
internal sealed record FoamThickness(Length? Value, FieldRef Field, ImmutableArray<WorkedStep> Steps, Verdict? Unknown)
{
    /// <summary>The thickness of a piece of work.</summary>
    public static FoamThickness Of(WorkFacts work) => work switch
    {
        SprayFacts { AsBuilt: true } spray => Built(spray),
        SprayFacts spray => Planned(spray),
        FillFacts { Fill: var fill } => OfCavity(fill),
        _ => throw new ArgumentException($"a {work.GetType().Name} has no thickness", nameof(work)),
    };

    /// <summary>Holds it against a limit that a layer may give.</summary>
    public Verdict Against(Limit? limit, string says) =>
        Unknown ?? (Part.Hold(Value!.Value, limit, says).Worked(Steps) with { Evidence = [Field] });

    // The specified thickness and the passes should agree; where they do not, the thicker is what would burn.
    private static FoamThickness Planned(SprayFacts work)
    {
        var spray = work.Spray;
        if (spray.Passes.IsEmpty)
        {
            return Given(spray.Thickness, spray, nameof(SprayApplication.Thickness));
        }

        var passes = SumOfPasses(work);
        return passes.Value is { } sum && spray.Thickness is { } specified && Quantities.Compare(specified, sum) > 0
            ? Given(specified, spray, nameof(SprayApplication.Thickness))
            : passes;
    }

    private static FoamThickness Built(SprayFacts work)
    {
        var survey = work.Spray.Survey;
        if (survey is { Depths.IsEmpty: false })
        {
            var deepest = survey.Depths.MaxBy(depth => depth.Meters);
            return Given(deepest, survey, nameof(ThicknessSurvey.Depths));
        }

        return work.Spray.Passes.IsEmpty ? Given(null, work.Spray, nameof(SprayApplication.Survey)) : SumOfPasses(work);
    }

    private static FoamThickness SumOfPasses(SprayFacts work)
    {
        var unknown = work.Passes.FirstOrDefault(pass => pass.Thickness is null);
        if (unknown.Pass is not null)
        {
            return Given(null, unknown.Pass, unknown.Property);
        }

        var sum = work.Passes.Aggregate(Length.Zero, (total, pass) => total + pass.Thickness!.Value);
        return Given(sum.ToUnit(work.Passes.First().Thickness!.Value.Unit), work.Spray, nameof(SprayApplication.Passes));
    }

    private static FoamThickness OfCavity(CavityFill fill)
    {
        var width = MemberSection.InsideWidth(fill);
        var property = fill.Section is null ? nameof(CavityFill.InsideWidth) : nameof(CavityFill.Section);
        return width.Gap is { } gap
            ? new FoamThickness(null, new FieldRef(fill, property), [], gap)
            : new FoamThickness(width.Value, new FieldRef(fill, property, Measure.Of(width.Value)), [.. width.Steps.Where(step => step.Name == "least inside width")], null);
    }

    private static FoamThickness Given(Length? value, PlanNode node, string property) => value is { } known
        ? new FoamThickness(known, new FieldRef(node, property, Measure.Of(known)), [], null)
        : new FoamThickness(null, new FieldRef(node, property), [], Verdict.Missing(node, property));
}
