using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Readings;

/// <summary>The price list: a line for each thing, with how its quantity was worked out.</summary>
internal static class PriceEntries
{
    /// <summary>The list; what is not worked out for the same reason stands in one line.</summary>
    public static ReportSection Of(Arrangement at) => new(at.Words["price"], [.. at.Report.PriceLines
        .GroupBy(line => line.Quantity is not null ? line.Id + line.Subject : $"{line.Subject} {line.How}")
        .Select(lines => Of(at, [.. lines]))])
    { Name = "price" };

    private static ReportEntry Of(Arrangement at, IReadOnlyList<PriceLine> lines)
    {
        var line = lines[0];
        var what = string.Join(at.Words.Semicolon, lines.Select(one => one.What));
        var asked = string.Join(", ", lines.Select(one => one.Requirement).Distinct());
        return new ReportEntry($"{at.Words.Of(line.Subject)}{at.Words.Colon}{what}{at.Words.Colon}{Quantity(at, line)} [{asked}]", new ReportDetail("", line.How));
    }

    private static string Quantity(Arrangement at, PriceLine line)
    {
        if (line.Quantity is not { } quantity)
        {
            return at.Words["price-unknown"];
        }

        // A bare factor needs its unit; what a count counts has just been said.
        var shown = at.Show(SafeSide.AtLeast(quantity)) + (quantity.Quantity is Scalar ? $" {at.Words.Named("unit", line.Unit)}" : "");
        return line.AtLeast ? at.Words["price-at-least", ("quantity", shown)] : shown;
    }
}
