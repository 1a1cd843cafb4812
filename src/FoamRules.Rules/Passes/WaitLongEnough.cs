using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.wait-long-enough: the wait before every pass after the first is at least the data sheet's, and never zero, whatever
/// the sheet says. The part that works out how long the foam below takes to lose half its rise comes with that calculation.
/// </summary>
public sealed class WaitLongEnough(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override string? WhyNot(SprayFacts bearer) => bearer.Spray.Passes.Length == 1 ? "one-pass" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        if (bearer.Spray.Passes.IsEmpty)
        {
            return Verdict.Missing(bearer.Spray, nameof(SprayApplication.Passes));
        }

        var sheet = bearer.Sheet;
        var limit = FromSheet(sheet, nameof(Product.WaitBetweenPasses), sheet.WaitBetweenPasses, Tighter.Higher);
        return Verdict.Worst(bearer.Spray.Passes.Skip(1).Select((pass, index) => Before(pass, index + 2, limit, sheet)));
    }

    private static Verdict Before(Pass pass, int number, Limit? limit, Product sheet)
    {
        if (pass.WaitBefore is not { } wait)
        {
            return Verdict.Missing(pass, nameof(Pass.WaitBefore));
        }

        if (wait.Seconds <= 0)
        {
            return Verdict.NotMet("no-wait").On(pass, nameof(Pass.WaitBefore), wait).With("number", number);
        }

        return limit is null
            ? Verdict.Missing(sheet, nameof(Product.WaitBetweenPasses))
            : Hold(wait, limit).On(pass, nameof(Pass.WaitBefore), wait).With("number", number);
    }
}
