using FoamRules.Calculations;
using FoamRules.Model;
using UnitsNet;
using CalculatedStandard = FoamRules.Calculations.SectionStandard;

namespace FoamRules.Rules.Fill;

/// <summary>The hollow section that a cavity is, by its designation and standard, and the cavity's least inside width.</summary>
public static class MemberSection
{
    /// <summary>What the section's standard says of it.</summary>
    public static Derived<SectionProperties> Of(CavityFill fill)
    {
        if (fill.Section is not { } designation)
        {
            return Derived<SectionProperties>.Missing(fill, nameof(CavityFill.Section));
        }

        if (fill.Standard is not { } standard)
        {
            return Derived<SectionProperties>.Missing(fill, nameof(CavityFill.Standard));
        }

        var section = HollowSections.Parse(designation, standard switch
        {
            Model.SectionStandard.AstmA500 => CalculatedStandard.AstmA500,
            Model.SectionStandard.AstmA1085 => CalculatedStandard.AstmA1085,
            Model.SectionStandard.En102102 => CalculatedStandard.En10210,
            _ => CalculatedStandard.En10219,
        });
        return section.HasValue
            ? Derived<SectionProperties>.From(HollowSections.Properties(section.Value), section.Steps)
            : Derived<SectionProperties>.Without(Judging.Verdict.OutOfRange(section.Refusal!));
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
}
