using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.covered-in-time: foam stays bare no longer than the permit, the specification or the data sheet allows; on a roof the
/// base coat is on the same day.
/// </summary>
public sealed class CoveredInTime(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer)
    {
        if (bearer is FillFacts)
        {
            return "closed-cavity";
        }

        return !IsRoof(bearer) && bearer.Fire.Covering is { Material: CoveringMaterial.None } ? "no-covering" : null;
    }

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var limits = Limits(bearer).ToList();
        if (IsRoof(bearer))
        {
            var roof = bearer.Fire.RoofAssembly;
            var coat = roof is null ? Verdict.Missing(bearer.Fire, nameof(FireSituation.RoofAssembly)) : Answer.Yes(roof.BaseCoatSameDay, roof, nameof(RoofAssembly.BaseCoatSameDay), "base-coat");
            return Verdict.Worst([coat, .. limits.Select(limit => Within(bearer, limit))]);
        }

        return limits.Count == 0
            ? Verdict.Missing(bearer.Fire, nameof(FireSituation.CoverWithin)).Saying("no-limit")
            : Verdict.Worst(limits.Select(limit => Within(bearer, limit)));
    }

    private static IEnumerable<Limit> Limits(WorkFacts bearer)
    {
        if (bearer.Fire.CoverWithin is { } given)
        {
            yield return PlanLimit.Of(bearer.Fire, nameof(FireSituation.CoverWithin), given, Tighter.Lower, SourceStatus.DataSheet);
        }

        if (FromSheet(bearer.Sheet, nameof(Product.CoverWithin), bearer.Sheet.CoverWithin, Tighter.Lower) is { } sheet)
        {
            yield return sheet;
        }
    }

    private static Verdict Within(WorkFacts bearer, Limit limit) =>
        Part.Hold(bearer.Fire, nameof(FireSituation.BareFor), bearer.Fire.BareFor, limit, "not-met");

    private static bool IsRoof(WorkFacts bearer) => FoamPlace.Of(bearer) is FoamLocation.AboveRoofDeck;
}
