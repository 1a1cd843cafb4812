using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>Limits that the plan itself sets, such as a thickness that is specified.</summary>
public static class PlanLimit
{
    /// <summary>The layer that stands on a limit of the plan.</summary>
    public const string Layer = "plan";

    /// <summary>A limit of the plan.</summary>
    /// <param name="node">The part of the plan that holds it.</param>
    /// <param name="property">The property that holds it, by <c>nameof</c>.</param>
    /// <param name="value">Its value.</param>
    /// <param name="tighter">Which change is tighter.</param>
    /// <param name="status">Where the plan has it from: its own figure, or a maker's sheet.</param>
    public static Limit Of(PlanNode node, string property, IQuantity value, Tighter tighter, SourceStatus status = SourceStatus.Arithmetic)
    {
        var path = node.PathOf(property);
        var citation = Spoken.Of("given-in-plan", $"{path}, as given in the plan", ("field", Measure.OfText(path)));
        return new Limit
        {
            Name = PathStep.FieldName(property),
            Value = Measure.Of(value),
            Tighter = tighter,
            Layer = Layer,
            Source = new Source(PathStep.FieldName(property), citation.Text!, status, Layer) { Named = citation.Phrase },
        };
    }
}
