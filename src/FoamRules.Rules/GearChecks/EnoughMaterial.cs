using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.GearChecks;

/// <summary>
/// gear.enough-material: what is on hand of a product covers what its work takes, with what is lost. Where too little is known of
/// some work, what the rest takes is the least that is needed.
/// </summary>
public sealed class EnoughMaterial : Requirement<ProductFacts>
{
    private readonly MaterialNeed _need;
    private readonly Limit _waste;
    private readonly Mass _set;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EnoughMaterial(RequirementSpec spec)
        : base(spec)
    {
        _need = new MaterialNeed(new FillParameters(spec.Parameters), Need("fill.shot-does-not-overfill.overpack").As<Ratio>());
        _waste = Shared("material-waste");
        _set = Shared("drum-set").As<Mass>();
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(ProductFacts bearer)
    {
        var masses = bearer.Work.Select(_need.MassOf).ToList();
        var open = Gaps.Of(masses.Select(mass => mass.Gap));
        var known = masses.Where(mass => mass.Gap is null).ToList();
        if (bearer.Product.MaterialOnHand is not { } onHand)
        {
            return Gaps.Of(open, Verdict.Missing(bearer.Product, nameof(Product.MaterialOnHand)))!;
        }

        if (known.Count == 0)
        {
            return open!;
        }

        var gear = bearer.Job.Gear;
        var waste = gear.Waste is { } own ? PlanLimit.Of(gear, nameof(Gear.Waste), own, Tighter.Higher) : _waste;
        var sets = Material.SetsFor(Mass.FromKilograms(known.Sum(mass => mass.Value.Kilograms)), waste.As<Ratio>(), gear.SetMass ?? _set);
        if (!sets.HasValue)
        {
            return Verdict.OutOfRange(sets.Refusal!);
        }

        ImmutableArray<WorkedStep> steps = [.. known.SelectMany(mass => mass.Steps), .. sets.Steps];
        var needed = waste.Amounting(sets.Value.Drawn.ToUnit(onHand.Unit), Tighter.Higher);
        var verdict = Hold(onHand, needed).With("waste", waste.Value).Worked(steps).On(bearer.Product, nameof(Product.MaterialOnHand), onHand);
        return verdict.Outcome == Outcome.Met && open is not null ? open : verdict;
    }
}
