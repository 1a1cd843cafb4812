using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>Coverings by the names that the codes' lists give them, and those lists in words.</summary>
internal static class CoveringNames
{
    /// <summary>The name of a material in the rule sets' lists, such as <c>wood-structural-panel</c>.</summary>
    public static string Of(CoveringMaterial material) => material switch
    {
        CoveringMaterial.MineralFiber => "mineral-fiber-insulation",
        CoveringMaterial.SteelSheet => "corrosion-resistant-steel",
        CoveringMaterial.Cellulose => "spray-applied-cellulose",
        _ => Answer.Word(material),
    };

    /// <summary>The same as a person says it.</summary>
    public static string Spoken(CoveringMaterial material) => Of(material).Replace('-', ' ');

    /// <summary>A list of a code in words, each thickness in inches and in millimetres.</summary>
    public static Measure List(IEnumerable<(string Name, Limit Limit)> group) => Judging.Spoken.List(
        group.OrderBy(entry => entry.Limit.Value.Quantity is null).SelectMany(entry => entry.Limit.Value.Quantity is { } thickness
            ? [Thick(entry.Name.Replace('-', ' '), thickness, entry.Limit.Or?.Quantity ?? thickness)]
            : entry.Limit.Words.Select(Judging.Spoken.Word)),
        ";");

    private static Measure Thick(string name, IQuantity us, IQuantity si) => Judging.Spoken.Of(
        "covering", $"{name} {MeasureText.Show(us, DisplayUnits.Us)} ({MeasureText.Show(si, DisplayUnits.Si)})",
        ("material", Judging.Spoken.Word(name)), ("us", Measure.Of(us)), ("si", Measure.Of(si)));
}
