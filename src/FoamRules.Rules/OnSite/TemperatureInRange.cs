using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.OnSite;

/// <summary>A temperature that is read on site lies in the range of a data sheet. Where the sheet gives only one end, the range is not known.</summary>
/// <typeparam name="TBearer">What it is judged on.</typeparam>
/// <param name="spec">The requirement as the rule sets state it.</param>
public abstract class TemperatureInRange<TBearer>(RequirementSpec spec) : Requirement<TBearer>(spec)
    where TBearer : Bearer
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <summary>Holds a reading against both ends of a sheet's range.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="sheet">The product.</param>
    /// <param name="lowest">The property that gives the low end, by <c>nameof</c>, and its value.</param>
    /// <param name="highest">The property that gives the high end, by <c>nameof</c>, and its value.</param>
    protected static Verdict InRange(Reading reading, Product sheet, (string Property, Temperature? Value) lowest, (string Property, Temperature? Value) highest)
    {
        if (reading.Temperature is not { } temperature)
        {
            return Verdict.Missing(reading, nameof(Reading.Temperature));
        }

        var low = FromSheet(sheet, lowest.Property, lowest.Value, Tighter.Higher) is { } least
            ? Hold(temperature, least).Saying("too-cold")
            : Verdict.Missing(sheet, lowest.Property);
        var high = FromSheet(sheet, highest.Property, highest.Value, Tighter.Lower) is { } most
            ? Hold(temperature, most).Saying("too-warm")
            : Verdict.Missing(sheet, highest.Property);
        return Verdict.Worst([low, high]).On(reading, nameof(Reading.Temperature), temperature).With("product", sheet.Id);
    }
}
