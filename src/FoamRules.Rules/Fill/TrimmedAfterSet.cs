using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.trimmed-after-set: only overflow outside the hole is cut, after the data sheet's set time, for which there is no default; a
/// mass thicker than one pass is not opened before a probe in its middle says that it is cool; an extinguisher and a respirator
/// are there.
/// </summary>
public sealed class TrimmedAfterSet : Requirement<FillFacts>
{
    private readonly Limit _coolInside;

    /// <summary>The requirement as the rule sets state it.</summary>
    public TrimmedAfterSet(RequirementSpec spec)
        : base(spec) => _coolInside = Need("cool-inside");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        if (bearer.Fill.Trimming is not { } trimming)
        {
            return Verdict.Missing(bearer.Fill, nameof(CavityFill.Trimming));
        }

        return Verdict.Worst(
        [
            ThickMass(trimming),
            AfterSet(bearer.Sheet, trimming),
            Verdict.Confirmed(trimming.OnlyOutsideHole, trimming, nameof(Trimming.OnlyOutsideHole), "inside-hole"),
            Verdict.Confirmed(trimming.ExtinguisherThere, trimming, nameof(Trimming.ExtinguisherThere), "no-extinguisher"),
            Verdict.Confirmed(trimming.RespiratorFirstHour, trimming, nameof(Trimming.RespiratorFirstHour), "no-respirator"),
        ]);
    }

    private Verdict ThickMass(Trimming trimming) => trimming switch
    {
        { CutsThickMass: null } => Verdict.Missing(trimming, nameof(Trimming.CutsThickMass)),
        { CutsThickMass: false } => Verdict.Met().On(trimming, nameof(Trimming.CutsThickMass)),
        { ThickMassBelow: { } probe } => Hold(probe, _coolInside).Saying("hot-inside").On(trimming, nameof(Trimming.ThickMassBelow), probe),
        _ => Verdict.Missing(trimming, nameof(Trimming.ThickMassBelow)),
    };

    private static Verdict AfterSet(Product sheet, Trimming trimming)
    {
        if (trimming.StartsAfter is not { } after)
        {
            return Verdict.Missing(trimming, nameof(Trimming.StartsAfter));
        }

        return FromSheet(sheet, nameof(Product.SetTime), sheet.SetTime, Tighter.Higher) is { } set
            ? Hold(after, set).On(trimming, nameof(Trimming.StartsAfter), after)
            : Verdict.Missing(sheet, nameof(Product.SetTime));
    }
}
