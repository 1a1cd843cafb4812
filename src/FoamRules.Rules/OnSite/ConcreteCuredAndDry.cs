using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.concrete-cured-and-dry: concrete is as old as the data sheet asks, or the rule set where the sheet is silent, and it is dry.</summary>
public sealed class ConcreteCuredAndDry(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    private readonly Limit _age = spec.Limits["age"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => bearer.Item.Substrate is null or Substrate.Concrete ? null : "not-concrete";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer) =>
        bearer.Item.Substrate is null ? Verdict.Missing(bearer.Item, nameof(WorkItem.Substrate)) : Verdict.Worst([Cured(bearer), Dry(bearer.Item)]);

    private Verdict Cured(WorkFacts bearer)
    {
        if (bearer.Item.ConcreteAge is not { } age)
        {
            return Verdict.Missing(bearer.Item, nameof(WorkItem.ConcreteAge));
        }

        var limit = Governing(FromSheet(bearer.Sheet, nameof(Product.MinConcreteAge), bearer.Sheet.MinConcreteAge, Tighter.Higher), _age);
        return Hold(age, limit).Saying("too-young").On(bearer.Item, nameof(WorkItem.ConcreteAge), age);
    }

    private static Verdict Dry(WorkItem item) => Verdict.Confirmed(item.ConcreteDry, item, nameof(WorkItem.ConcreteDry), "wet");
}
