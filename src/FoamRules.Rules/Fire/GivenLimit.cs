using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fire;

/// <summary>Limits that stand in the plan itself: of a test report, a permit, a specification or a listing.</summary>
internal static class GivenLimit
{
    /// <summary>A limit that a paper sets, as given in the plan.</summary>
    /// <param name="paper">The paper, such as "fire test report".</param>
    /// <param name="property">The property that holds it, by <c>nameof</c>.</param>
    /// <param name="value">Its value.</param>
    /// <param name="tighter">Which change is tighter.</param>
    public static Limit Of(string paper, string property, IQuantity value, Tighter tighter)
    {
        var field = PathStep.FieldName(property);
        return new Limit
        {
            Name = field,
            Value = Measure.Of(value),
            Tighter = tighter,
            Layer = paper,
            Source = new Source(field, $"{paper}, as given in the plan", SourceStatus.DataSheet, paper),
        };
    }
}
