using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fire;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Passes;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>Quantities of sprayed foam: what covers it, masking around it, more days for more build, the last check for heat.</summary>
internal static class PriceListSpray
{
    public static IEnumerable<KeyValuePair<string, PriceQuantityKind>> Kinds =>
    [
        PriceQuantityKind.For<SprayFacts>("covered-area", CoveredArea, "planned", "qualifies", "no-list"),
        PriceQuantityKind.For<SprayFacts>("sprayed-work", (_, _) => PriceQuantity.Of(1)),
        PriceQuantityKind.For<SprayFacts>("later-days", LaterDays, "planned", "least"),
        PriceQuantityKind.For<WorkFacts>("heat-watch", HeatWatch, "asked", "planned"),
    ];

    private static PriceQuantity? CoveredArea(PriceInputs inputs, SprayFacts facts)
    {
        var fire = facts.Fire;
        if (fire.BehindThermalBarrier is true)
        {
            return null;
        }

        var site = facts.Job.Site;
        var code = CodeLimits.Of(inputs.Spec, site);
        var area = facts.Spray.Area is { } given ? PriceQuantity.Of(given) : PriceQuantity.Unknown(new FieldRef(facts.Spray, nameof(SprayApplication.Area))) with { Way = "" };
        area = fire.Covering is { Material: { } material and not CoveringMaterial.None } covering && code is { AreGiven: true } && ThermalBarrier.Judge(fire, code).Outcome == Outcome.Met
            ? area.By("planned").With("covering", Spoken.Word(CoveringNames.Spoken(material))).With("thickness", covering.Thickness is { } thick ? Measure.Of(thick) : Measure.OfText(""))
            : code is { AreGiven: true } ? area.By("qualifies").With("would_do", CoveringNames.List(code.Group(ThermalBarrier.Group)))
            : area.By("no-list");
        return site.BuildingCode is null ? area with { Missing = area.Missing.Add(new FieldRef(site, nameof(Site.BuildingCode))) } : area;
    }

    // The first day is the visit itself.
    private static PriceQuantity? LaterDays(PriceInputs inputs, SprayFacts facts)
    {
        var (spray, sheet) = (facts.Spray, facts.Sheet);
        if (spray.Passes.Length > 0 && spray.Passes.All(pass => pass.Day is not null))
        {
            var later = spray.Passes.Select(pass => pass.Day).Distinct().Count() - 1;
            return later == 0 ? null : PriceQuantity.Of(later).By("planned");
        }

        if ((PassSum.Of(facts) ?? spray.Thickness) is not { } whole)
        {
            return PriceQuantity.Unknown(new FieldRef(spray, nameof(SprayApplication.Thickness)));
        }

        if (sheet.MaxDailyThickness is not { } most || most <= Length.Zero)
        {
            return PriceQuantity.Unknown(new FieldRef(sheet, nameof(Product.MaxDailyThickness)));
        }

        var days = PassSum.EqualParts(whole, most);
        return days == 1 ? null : PriceQuantity.Of(days - 1).By("least").With("whole", whole).With("daily", most) with { AtLeast = true };
    }

    private static PriceQuantity HeatWatch(PriceInputs inputs, WorkFacts facts)
    {
        var asked = inputs.Spec.Limits["stay"].As<Duration>();
        return facts.Item.HeatWatch?.StaysFor is { } planned && planned > asked
            ? PriceQuantity.Of(planned).By("planned")
            : PriceQuantity.Of(asked).By("asked") with { AtLeast = true };
    }
}
