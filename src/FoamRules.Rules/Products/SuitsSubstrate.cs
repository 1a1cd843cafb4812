using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>product.suits-substrate: the data sheet accepts the substrate; where it asks for a primer there, the primer is planned.</summary>
public sealed class SuitsSubstrate(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var sheet = bearer.Sheet;
        if (bearer.Item.Substrate is not { } substrate)
        {
            return Verdict.Missing(bearer.Item, nameof(WorkItem.Substrate));
        }

        if (sheet.AcceptedSubstrates.IsEmpty)
        {
            return Verdict.Missing(sheet, nameof(Product.AcceptedSubstrates));
        }

        var words = Spoken.Of(sheet.AcceptedSubstrates.Select(entry => entry.Substrate));
        var accepted = SheetLimit.Of(sheet, nameof(Product.AcceptedSubstrates), words, Tighter.Fewer);
        var entry = sheet.AcceptedSubstrates.FirstOrDefault(entry => entry.Substrate == substrate);
        return ((entry is null ? Verdict.NotMet() : Primed(bearer.Item, entry)) with { Value = Spoken.Of(substrate), Limit = accepted })
            .On(bearer.Item, nameof(WorkItem.Substrate));
    }

    private static Verdict Primed(WorkItem item, AcceptedSubstrate entry)
    {
        if (entry.NeedsPrimer is false || item.Primed is true)
        {
            return Verdict.Met();
        }

        if (entry.NeedsPrimer is null)
        {
            return Verdict.Missing(entry, nameof(AcceptedSubstrate.NeedsPrimer));
        }

        return item.Primed is null ? Verdict.Missing(item, nameof(WorkItem.Primed)) : Verdict.NotMet("no-primer").On(item, nameof(WorkItem.Primed));
    }
}
