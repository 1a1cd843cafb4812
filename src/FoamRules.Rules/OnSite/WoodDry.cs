using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.wood-dry: the moisture of wood is at most what the data sheet allows, or the rule set's figure where the sheet is silent.</summary>
public sealed class WoodDry(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    private readonly Limit _moisture = spec.Limits["moisture"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => bearer.Item.Substrate is null or Substrate.Wood ? null : "not-wood";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        if (bearer.Item.Substrate is null)
        {
            return Verdict.Missing(bearer.Item, nameof(WorkItem.Substrate));
        }

        var readings = StandingReadings.For(bearer, ReadingKind.WoodMoisture);
        return readings.IsEmpty ? StandingReadings.None(bearer.Area, "wood moisture") : Verdict.Worst(readings.Select(reading => DryEnough(reading, bearer.Sheet)));
    }

    private Verdict DryEnough(Reading reading, Product sheet)
    {
        if (reading.Humidity is not { } moisture)
        {
            return Verdict.Missing(reading, nameof(Reading.Humidity));
        }

        var limit = Governing(FromSheet(sheet, nameof(Product.MaxWoodMoisture), sheet.MaxWoodMoisture, Tighter.Lower), _moisture);
        return Hold(moisture, limit).On(reading, nameof(Reading.Humidity), moisture);
    }
}
