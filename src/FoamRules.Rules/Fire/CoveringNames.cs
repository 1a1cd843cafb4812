using FoamRules.Model;
using FoamRules.RuleSets;

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
        _ => PathStep.FieldName(material.ToString()).Replace('_', '-'),
    };

    /// <summary>The same as a person says it.</summary>
    public static string Spoken(CoveringMaterial material) => Of(material).Replace('-', ' ');

    /// <summary>A list of a code in words, each thickness in inches and in millimetres.</summary>
    public static string List(IEnumerable<(string Name, Limit Limit)> group) => string.Join("; ", group.OrderBy(entry => entry.Limit.Value.Quantity is null).Select(entry =>
        entry.Limit.Value.Quantity is { } thickness
            ? $"{entry.Name.Replace('-', ' ')} {MeasureText.Show(thickness, DisplayUnits.Us)} ({MeasureText.Show(entry.Limit.Or?.Quantity ?? thickness, DisplayUnits.Si)})"
            : string.Join("; ", entry.Limit.Words)));
}
