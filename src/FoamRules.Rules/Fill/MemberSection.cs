using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using UnitsNet;
using CalculatedStandard = FoamRules.Calculations.SectionStandard;

namespace FoamRules.Rules.Fill;

/// <summary>The hollow section that a cavity is, by its designation and standard, and the cavity's least inside width.</summary>
public static class MemberSection
{
    // The same few sections stand in plan after plan.
    private static readonly Remembered<(string Designation, CalculatedStandard Standard), Calculated<HollowSection>> Outlines =
        new(section => HollowSections.Parse(section.Designation, section.Standard));

    private static readonly Remembered<(string Designation, CalculatedStandard Standard), Calculated<SectionProperties>> Sections =
        new(section => Outlines.Of(section) is { HasValue: true } outline ? HollowSections.Properties(outline.Value) : Calculated<SectionProperties>.Refuse(Outlines.Of(section).Refusal!));

    /// <summary>The section as its designation and its standard name it.</summary>
    public static Derived<HollowSection> Outline(CavityFill fill)
    {
        if (fill.Section is not { } designation)
        {
            return Derived<HollowSection>.Missing(fill, nameof(CavityFill.Section));
        }

        if (fill.Standard is not { } standard)
        {
            return Derived<HollowSection>.Missing(fill, nameof(CavityFill.Standard));
        }

        return Derived<HollowSection>.From(Outlines.Of((designation, Calculating(standard))));
    }

    /// <summary>What the section's standard says of it.</summary>
    public static Derived<SectionProperties> Of(CavityFill fill)
    {
        var outline = Outline(fill);
        return outline.Gap is { } gap
            ? Derived<SectionProperties>.Without(gap)
            : Derived<SectionProperties>.From(Sections.Of((fill.Section!, Calculating(fill.Standard!.Value))), outline.Steps);
    }

    /// <summary>The least inside width: of the section where one is named, else as given.</summary>
    public static Derived<Length> InsideWidth(CavityFill fill)
    {
        if (fill.Section is null)
        {
            return fill.InsideWidth is { } width ? Derived<Length>.Of(width) : Derived<Length>.Missing(fill, nameof(CavityFill.InsideWidth));
        }

        var section = Of(fill);
        return section.Gap is { } gap ? Derived<Length>.Without(gap) : Derived<Length>.Of(section.Value.LeastInsideWidth, section.Steps);
    }

    private static CalculatedStandard Calculating(Model.SectionStandard standard) => standard switch
    {
        Model.SectionStandard.AstmA500 => CalculatedStandard.AstmA500,
        Model.SectionStandard.AstmA1085 => CalculatedStandard.AstmA1085,
        Model.SectionStandard.En102102 => CalculatedStandard.En10210,
        _ => CalculatedStandard.En10219,
    };
}
