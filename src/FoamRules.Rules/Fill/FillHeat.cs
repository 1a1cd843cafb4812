using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// The heat in filled cavities (calculations 4.3 and 4.4): each space as one tall pour, because several pours cool no faster.
/// Steel walls are held at the warmer of steel and air, which is the least that the foam can stay hot; other walls give heat off
/// to air. Where only the width is known, the foam is taken as a wall of that thickness.
/// </summary>
public static class FillHeat
{
    // As wide as the calculation goes: across it no heat is lost that counts.
    private static readonly Length Wide = Length.FromMeters(5);

    /// <summary>Time hot and cooling time of a space.</summary>
    /// <param name="numbers">The numbers of the fill.</param>
    /// <param name="space">The space.</param>
    /// <param name="heat">What the rule sets say of heat.</param>
    public static Derived<PourHeatResult> Of(FillNumbers numbers, FillSpace space, HeatParameters heat)
    {
        var (section, rise) = (Inside(numbers), heat.RiseOf(numbers.Facts.Sheet));
        if (section.Gap is { } gap)
        {
            return Derived<PourHeatResult>.Without(gap);
        }

        return rise.HasValue
            ? Derived<PourHeatResult>.From(HeatMemo.Of(new PourHeatCase(
                section.Value, space.Length, Foam(numbers, heat), heat.MixOf(numbers.Facts.Job.Gear), rise.Value.Likely, Around(numbers, heat),
                numbers.HasSteelWalls ? null : heat.Film, heat.Film, heat.HotAbove.As<Temperature>(), heat.RiseLeft.As<Ratio>())))
            : Derived<PourHeatResult>.Without(Verdict.OutOfRange(rise.Refusal!));
    }

    /// <summary>How long one sprayed pass of the same foam stays hot on a back that takes no heat.</summary>
    /// <param name="numbers">The numbers of the fill.</param>
    /// <param name="thickness">The pass.</param>
    /// <param name="heat">What the rule sets say of heat.</param>
    public static Derived<Duration> OfPass(FillNumbers numbers, Length thickness, HeatParameters heat)
    {
        var rise = heat.RiseOf(numbers.Facts.Sheet);
        if (!rise.HasValue)
        {
            return Derived<Duration>.Without(Verdict.OutOfRange(rise.Refusal!));
        }

        var pass = new FoamPass(thickness, Foam(numbers, heat), heat.MixOf(numbers.Facts.Job.Gear), rise.Value.Likely, Duration.Zero);
        var alone = HeatMemo.Of(new PassHeatCase(
            [], null, new AirFilm(Around(numbers, heat), heat.Film), [pass], heat.HotAbove.As<Temperature>(), heat.RiseLeft.As<Ratio>(), Duration.FromDays(14)));
        return alone.HasValue ? Derived<Duration>.Of(alone.Value.LongestHot) : Derived<Duration>.Without(Verdict.OutOfRange(alone.Refusal!));
    }

    private static ThermalProperties Foam(FillNumbers numbers, HeatParameters heat) => heat.FoamOf(numbers.Facts.Sheet, FoamKind.ClosedCellPour);

    private static Temperature Around(FillNumbers numbers, HeatParameters heat)
    {
        var air = heat.AirOf(numbers.Facts.Area);
        return numbers.Fill.SteelTemperature is { } steel && steel > air ? steel : air;
    }

    private static Derived<PourSection> Inside(FillNumbers numbers)
    {
        if (numbers.Fill.Section is not null)
        {
            return numbers.Outline.Gap is { } unknown ? Derived<PourSection>.Without(unknown) : Derived<PourSection>.Of(Inside(numbers.Outline.Value));
        }

        if (numbers.InsideWidth.Gap is { } gap)
        {
            return Derived<PourSection>.Without(gap);
        }

        var width = numbers.InsideWidth.Value;
        var depth = numbers.Fill.VoidArea is { } area && width > Length.Zero ? area / width : Wide;
        return Derived<PourSection>.Of(new PourSection.Rectangular(width, depth < width ? width : depth > Wide ? Wide : depth));
    }

    private static PourSection Inside(HollowSection outline)
    {
        var walls = 2 * outline.NominalWall;
        return outline.Shape == SectionShape.Round
            ? new PourSection.Round(outline.Depth - walls)
            : new PourSection.Rectangular(outline.Width - walls, outline.Depth - walls);
    }
}
