using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.wait-long-enough: the wait before every pass after the first is at least the data sheet's, and never zero, whatever
/// the sheet says. Where that holds, the wait is also held against the computed time until the hottest point of the foam below
/// has lost its share of the rise (calculation 4.4), in a lighter tier. The computed time clears nothing.
/// </summary>
public sealed class WaitLongEnough(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private const string Computed = "computed";

    private readonly HeatParameters _heat = new(spec.Parameters);

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

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
        var kept = Verdict.Worst(bearer.Spray.Passes.Skip(1).Select((pass, index) => Before(pass, index + 2, limit, sheet)));
        return kept.Outcome == Outcome.Met ? Verdict.Worst([kept, .. Cooled(bearer)]) : kept;
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

    private IEnumerable<Verdict> Cooled(SprayFacts bearer)
    {
        var rise = _heat.RiseOf(bearer.Sheet);
        if (!rise.HasValue)
        {
            return [Verdict.OutOfRange(rise.Refusal!).AtTier(Computed)];
        }

        // All passes start as far above the air, so the time to any share of the rise does not depend on the rise.
        return Enumerable.Range(1, bearer.Spray.Passes.Length - 1).Select(below => CooledBefore(bearer, below, rise.Value.Likely).AtTier(Computed));
    }

    private Verdict CooledBefore(SprayFacts bearer, int below, TemperatureDelta rise)
    {
        if (Verdict.Missing([.. SprayHeat.Unknown(bearer, below)]) is { MissingFields.IsEmpty: false } missing)
        {
            return missing;
        }

        var heat = new SprayHeat(bearer, _heat).AsPlanned(below, rise);
        if (!heat.HasValue)
        {
            return Verdict.OutOfRange(heat.Refusal!);
        }

        var (pass, number) = (bearer.Spray.Passes[below], below + 1);
        if (heat.Value.Passes[^1].CooledAfter is not { } cooled)
        {
            return Verdict.OutOfRange(new Refusal($"foam below pass {number}", Measure.OfText("hot for longer"), "foam that cools within 14 days", "the calculation ends there"));
        }

        var needed = _heat.RiseLeft.Amounting(cooled, Tighter.Higher) with { Name = "cooling" };
        return Hold(pass.WaitBefore!.Value, needed).Saying("not-cooled").On(pass, nameof(Pass.WaitBefore), pass.WaitBefore.Value)
            .With("number", number).With("left", _heat.RiseLeft.Value).With("needed", HeatParameters.ForPeople(cooled)).Worked(heat.Steps);
    }
}
