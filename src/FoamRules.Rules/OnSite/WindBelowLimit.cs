using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>
/// site.wind-below-limit: outdoors, gusts at the height of the work are at most what the data sheet allows; where it is silent, the
/// rule set's figure without wind screens, or the higher one behind them.
/// </summary>
public sealed class WindBelowLimit(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _bare = spec.Limits["without-screens"];
    private readonly Limit _screened = spec.Limits["with-screens"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer)
    {
        if (!bearer.HasSpraying)
        {
            return "nothing-sprayed";
        }

        return bearer.Area.Enclosure == Enclosure.Interior ? "indoors" : null;
    }

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        if (area.Enclosure is null)
        {
            return Verdict.Missing(area, nameof(WorkArea.Enclosure));
        }

        var gusts = StandingReadings.In(bearer, ReadingKind.WindGust);
        if (gusts.IsEmpty)
        {
            return StandingReadings.None(bearer, "wind gusts at the height of the work");
        }

        return Verdict.Worst(AreaSheets.Of(bearer.Work.OfType<SprayFacts>()).SelectMany(sheet => gusts.Select(gust => CalmEnough(gust, sheet, area))));
    }

    private Verdict CalmEnough(Reading reading, Product sheet, WorkArea area)
    {
        if (reading.Speed is not { } gust)
        {
            return Verdict.Missing(reading, nameof(Reading.Speed));
        }

        if (FromSheet(sheet, nameof(Product.MaxWind), sheet.MaxWind, Tighter.Lower) is { } bySheet)
        {
            return Hold(gust, Governing(bySheet, area.WindScreens == true ? _screened : _bare)).Saying("by-sheet").On(reading, nameof(Reading.Speed), gust);
        }

        var bare = Hold(gust, _bare).Saying("without-screens").On(reading, nameof(Reading.Speed), gust);
        if (bare.Outcome == Outcome.Met || area.WindScreens == false)
        {
            return bare;
        }

        var screened = Hold(gust, _screened).Saying("with-screens").On(reading, nameof(Reading.Speed), gust);
        return area.WindScreens == true || screened.Outcome == Outcome.NotMet ? screened : Verdict.Missing(area, nameof(WorkArea.WindScreens));
    }
}
