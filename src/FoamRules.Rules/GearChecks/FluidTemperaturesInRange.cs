using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.GearChecks;

/// <summary>gear.fluid-temperatures-in-range: both liquids, at the gun, lie inside the data sheet's range. There is no default.</summary>
public sealed class FluidTemperaturesInRange(RequirementSpec spec) : Requirement<ProductFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var gear = bearer.Job.Gear;
        return gear.FluidTemperatures is { } at
            ? Verdict.Worst([Side(bearer.Product, at, at.ASide, nameof(FluidTemperatures.ASide), "A"), Side(bearer.Product, at, at.BSide, nameof(FluidTemperatures.BSide), "B")])
            : Verdict.Missing(gear, nameof(Gear.FluidTemperatures));
    }

    private static Verdict Side(Product sheet, FluidTemperatures at, Temperature? found, string property, string side)
    {
        if (found is not { } liquid)
        {
            return Verdict.Missing(at, property);
        }

        var coldest = FromSheet(sheet, nameof(Product.MinFluidTemperature), sheet.MinFluidTemperature, Tighter.Higher);
        var warmest = FromSheet(sheet, nameof(Product.MaxFluidTemperature), sheet.MaxFluidTemperature, Tighter.Lower);
        return Verdict.Worst(
        [
            coldest is null ? Verdict.Missing(sheet, nameof(Product.MinFluidTemperature)) : Hold(liquid, coldest).Saying("too-cold"),
            warmest is null ? Verdict.Missing(sheet, nameof(Product.MaxFluidTemperature)) : Hold(liquid, warmest).Saying("too-warm"),
        ]).On(at, property, liquid).With("side", side);
    }
}
