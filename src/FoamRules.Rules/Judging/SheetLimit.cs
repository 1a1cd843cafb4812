using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Judging;

/// <summary>Limits that come from a product's data sheet, as the plan gives them.</summary>
public static class SheetLimit
{
    /// <summary>The layer that stands on a limit of a data sheet.</summary>
    public const string Layer = "data sheet";

    /// <summary>A limit of a data sheet.</summary>
    /// <param name="sheet">The product.</param>
    /// <param name="property">The property that holds the limit, by <c>nameof</c>.</param>
    /// <param name="value">Its value.</param>
    /// <param name="tighter">Which change is tighter.</param>
    public static Limit Of(Product sheet, string property, Measure value, Tighter tighter)
    {
        var citation = sheet.SheetRevision is { } date
            ? Spoken.Of("data-sheet", $"data sheet of {sheet.Id}, revision {date:yyyy-MM-dd}", ("product", Measure.OfText(sheet.Id)), ("date", Measure.OfDate(date)))
            : Spoken.Of("data-sheet-undated", $"data sheet of {sheet.Id}, revision not given", ("product", Measure.OfText(sheet.Id)));
        var field = PathStep.FieldName(property);
        return new Limit
        {
            Name = field,
            Value = value,
            Tighter = tighter,
            Layer = Layer,
            Source = new Source(field, citation.Text!, SourceStatus.DataSheet, Layer) { Named = citation.Phrase },
        };
    }
}
