using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Products;

/// <summary>product.open-cell-kept-dry: open-cell foam is not used on a roof top, below grade or outdoors.</summary>
public sealed class OpenCellKeptDry(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.WrongFoam;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => bearer.Sheet.Kind is null or FoamKind.OpenCellSpray ? null : "closed-cell";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Sheet.Kind is null)
        {
            return Verdict.Missing(bearer.Sheet, nameof(Product.Kind));
        }

        return Verdict.Worst([UnderRoof(bearer.Area.Area), AboveGrade(bearer.Item)]);
    }

    private static Verdict UnderRoof(WorkArea area)
    {
        if (area.Enclosure is not { } enclosure)
        {
            return Verdict.Missing(area, nameof(WorkArea.Enclosure));
        }

        var place = enclosure switch { Enclosure.Roof => "on a roof", Enclosure.Exterior => "outdoors", _ => "indoors" };
        return (enclosure == Enclosure.Interior ? Verdict.Met() : Verdict.NotMet()).On(area, nameof(WorkArea.Enclosure)).With("place", Spoken.Word(place));
    }

    private static Verdict AboveGrade(WorkItem item) => item.BelowGrade switch
    {
        null => Verdict.Missing(item, nameof(WorkItem.BelowGrade)),
        true => Verdict.NotMet().On(item, nameof(WorkItem.BelowGrade)).With("place", Spoken.Word("below grade")),
        false => Verdict.Met().On(item, nameof(WorkItem.BelowGrade)),
    };
}
