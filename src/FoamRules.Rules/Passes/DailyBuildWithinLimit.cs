using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>pass.daily-build-within-limit: no day builds more than the data sheet's daily maximum. There is no default.</summary>
public sealed class DailyBuildWithinLimit(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var sheet = bearer.Sheet;
        if (FromSheet(sheet, nameof(Product.MaxDailyThickness), sheet.MaxDailyThickness, Tighter.Lower) is not { } limit)
        {
            return Verdict.Missing(sheet, nameof(Product.MaxDailyThickness));
        }

        // All of it in one day is the most that a day can get: where that holds, nobody needs to say which pass is on which day.
        if (PassSum.Of(bearer) is { } all && Hold(all, limit) is { Outcome: Outcome.Met } even)
        {
            return even.On(bearer.Spray, nameof(SprayApplication.Passes));
        }

        return Proposing(Verdict.Worst([.. KnownDays(bearer, limit), TheRest(bearer, limit)]), bearer, limit);
    }

    private static IEnumerable<Verdict> KnownDays(SprayFacts bearer, Limit limit) => bearer.Passes
        .Where(pass => pass is { Pass.Day: not null, Thickness: not null })
        .GroupBy(pass => pass.Pass.Day!.Value)
        .Select(day => Hold(PassSum.Of(day.Select(pass => pass.Thickness!.Value)), limit).Saying("day")
            .On(bearer.Spray, nameof(SprayApplication.Passes)).With("day", day.Key));

    // So many days at least, where the whole thickness is known.
    private static Verdict Proposing(Verdict verdict, SprayFacts bearer, Limit limit)
    {
        var whole = PassSum.Of(bearer) ?? bearer.Spray.Thickness;
        return verdict.With("days", whole is { } known ? AtLeast(PassSum.EqualParts(known, limit.As<Length>())) : Spoken.Word("more days"));
    }

    private static Measure AtLeast(int days) => Spoken.Of("at-least-days", $"at least {days} days", ("count", Measure.OfCount(days)));

    private static Verdict TheRest(SprayFacts bearer, Limit limit)
    {
        var spray = bearer.Spray;
        var unknown = bearer.Passes.Where(pass => pass.Pass.Day is null || pass.Thickness is null)
            .Select(pass => new FieldRef(pass.Pass, pass.Thickness is null ? pass.Property : nameof(Pass.Day))).ToList();
        if (spray.Passes.Length > 0 && unknown.Count == 0)
        {
            return Verdict.Met();
        }

        if (spray.ThicknessPerDay is { } fullest)
        {
            return Hold(fullest, limit).Saying("fullest-day").On(spray, nameof(SprayApplication.ThicknessPerDay), fullest);
        }

        return Verdict.Missing([.. unknown, new FieldRef(spray, nameof(SprayApplication.ThicknessPerDay))]);
    }
}
