using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Passes;

/// <summary>pass.thickness-not-too-thin: no pass is thinner than the data sheet's minimum.</summary>
public sealed class ThicknessNotTooThin(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _thinnest = spec.Limits["thinnest"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var sheet = bearer.Sheet;
        var limit = Governing(FromSheet(sheet, nameof(Product.MinPassThickness), sheet.MinPassThickness, Tighter.Higher), _thinnest);
        var verdicts = bearer.Passes.Select(pass => pass.Thickness is { } thickness
            ? Hold(thickness, limit).On(pass.Pass, pass.Property, thickness)
            : Verdict.Missing(pass.Pass, pass.Property)).ToList();
        return verdicts.Count == 0 ? Verdict.Missing(bearer.Spray, nameof(SprayApplication.Passes)) : Verdict.Worst(verdicts);
    }
}
