using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>The standard that a hollow section is made to; it sets the corner radii and the wall to calculate with.</summary>
public enum SectionStandard
{
    /// <summary>EN 10210-2, hot finished: r_o = 1.5 t, r_i = 1.0 t.</summary>
    En10210,

    /// <summary>EN 10219-2, cold formed: radii by wall thickness.</summary>
    En10219,

    /// <summary>ASTM A500: design wall 0.93 t rounded to 0.001 in, corners 2 t and 1 t of the wall in use.</summary>
    AstmA500,

    /// <summary>ASTM A1085: design wall is the nominal wall, corners 2 t and 1 t.</summary>
    AstmA1085,
}

/// <summary>The outline of a hollow section.</summary>
public enum SectionShape
{
    /// <summary>Square or rectangular, with rounded corners.</summary>
    Rectangular,

    /// <summary>Round.</summary>
    Round,
}

/// <summary>A structural hollow section.</summary>
/// <param name="Standard">The standard it is made to.</param>
/// <param name="Shape">Its outline.</param>
/// <param name="Depth">Outside depth H, or the outside diameter of a round section.</param>
/// <param name="Width">Outside width B; equal to the depth for square and round sections.</param>
/// <param name="NominalWall">Nominal wall thickness t.</param>
public sealed record HollowSection(SectionStandard Standard, SectionShape Shape, Length Depth, Length Width, Length NominalWall);

/// <summary>What a fill needs to know of a hollow section.</summary>
/// <param name="DesignWall">The wall that the standard's tables calculate with.</param>
/// <param name="VoidAtNominalWall">The smallest likely void: overfilling is checked against it.</param>
/// <param name="VoidAtDesignWall">The largest likely void: the least fill must fill it.</param>
/// <param name="SteelArea">Steel area at the design wall, as tabulated.</param>
/// <param name="SteelAreaAtNominalWall">Steel area at the nominal wall.</param>
/// <param name="LeastInsideWidth">Smaller inside dimension at the nominal wall.</param>
/// <param name="FlatOnDepth">Flat part of the faces of dimension H; zero for a round section.</param>
/// <param name="FlatOnWidth">Flat part of the faces of dimension B; zero for a round section.</param>
/// <param name="Corner">What a corner takes off each end of a face; zero for a round section.</param>
/// <param name="Perimeter">Outside perimeter, rounded corners taken off, at the design wall.</param>
public sealed record SectionProperties(
    Length DesignWall, Area VoidAtNominalWall, Area VoidAtDesignWall, Area SteelArea, Area SteelAreaAtNominalWall,
    Length LeastInsideWidth, Length FlatOnDepth, Length FlatOnWidth, Length Corner, Length Perimeter);

/// <summary>Void, steel area and inside width of structural hollow sections from the standard's own radii.</summary>
public static class HollowSections
{
    private const string ShapeSource = "section geometry; radii of ";
    private const string AstmFlatSource = "workable flat with 2.25 t_des corners (steel construction manual practice, read)";

    /// <summary>
    /// Void and steel area: A_void = (H − 2t)(B − 2t) − (4 − π) r_i², A_steel = H·B − (4 − π) r_o² − A_void; round: π/4 (D − 2t)².
    /// Each at the nominal and at the design wall (ASTM A500: 0.93 t rounded to 0.001 in, as tabulated; others: nominal).
    /// Least inside width min(H, B) − 2t at the nominal wall. Flat: side − 2 r_o, for ASTM side − 4.5 t_des.
    /// Range: the sizes the standard covers (EN 10210-2 wall ≤ 120 mm, EN 10219-2 ≤ 40 mm, ASTM ≤ 1 in and outside
    /// periphery ≤ 88 in), and corners that do not meet.
    /// Sources: EN 10210-2, EN 10219-2, ASTM A500, ASTM A1085.
    /// </summary>
    public static Calculated<SectionProperties> Properties(HollowSection section)
    {
        if (OutsideStandard(section) is { } refusal)
            return Calculated<SectionProperties>.Refuse(refusal);
        var designWall = DesignWall(section);
        var voidNominal = VoidArea(section, section.NominalWall);
        var voidDesign = VoidArea(section, designWall);
        var steelNominal = OutlineArea(section, section.NominalWall) - voidNominal;
        var steel = OutlineArea(section, designWall) - voidDesign;
        var leastInside = Least(section.Depth, section.Width) - 2 * section.NominalWall;
        var corner = FlatCorner(section, designWall);
        var flatOnDepth = section.Shape == SectionShape.Round ? Length.Zero : section.Depth - 2 * corner;
        var flatOnWidth = section.Shape == SectionShape.Round ? Length.Zero : section.Width - 2 * corner;

        var source = ShapeSource + StandardName(section.Standard);
        var voidFormula = section.Shape == SectionShape.Round ? "A_void = π/4 (D − 2t)²" : "A_void = (H − 2t)(B − 2t) − (4 − π) r_i²";
        var steelFormula = section.Shape == SectionShape.Round ? "A = π/4 D² − A_void" : "A = H·B − (4 − π) r_o² − A_void";
        return Calculated<SectionProperties>.From(
            new SectionProperties(designWall, voidNominal, voidDesign, steel, steelNominal, leastInside, flatOnDepth, flatOnWidth,
                section.Shape == SectionShape.Round ? Length.Zero : corner, OutsidePerimeter(section, designWall)),
            Line.Of("design wall", section.Standard == SectionStandard.AstmA500 ? "t_des = 0.93 t, rounded to 0.001 in" : "t_des = t",
                designWall, StandardName(section.Standard),
                Line.In("t", "nominal wall", section.NominalWall)),
            Line.Of("void area at nominal wall", voidFormula, voidNominal, source, [.. Terms(section, section.NominalWall)]),
            Line.Of("void area at design wall", voidFormula, voidDesign, source, [.. Terms(section, designWall)]),
            Line.Of("steel area at design wall", steelFormula, steel, source,
                [.. Terms(section, designWall), Line.In("r_o", "outside corner radius", OutsideRadius(section, designWall)), Line.In("A_void", "void area", voidDesign)]),
            Line.Of("least inside width", "b_i = min(H, B) − 2t", leastInside, "section geometry",
                Line.In("H", "outside depth", section.Depth), Line.In("B", "outside width", section.Width), Line.In("t", "nominal wall", section.NominalWall)),
            Line.Of("flat width", "flat = B − 2 r, zero for a round section", flatOnWidth, IsAstm(section.Standard) ? AstmFlatSource : source,
                Line.In("B", "outside width", section.Width), Line.In("r", "corner taken off each side", corner)));
    }

    /// <summary>
    /// The gate for tabulated rows: how far a tabulated steel area is from the calculated one, (A_table − A) ÷ A. Public tables have
    /// wrong rows; a row further off than <paramref name="tolerance"/> (0 to 100 %) is refused. Source: section geometry, as in <see cref="Properties"/>.
    /// </summary>
    public static Calculated<Ratio> AgreementWithTable(HollowSection section, Area tabulatedSteelArea, Ratio tolerance)
    {
        if (Gate.First(
                Gate.Positive("tabulated steel area", tabulatedSteelArea),
                Gate.Require(tolerance.DecimalFractions is > 0 and < 1, "tolerance", Measure.Of(tolerance), "more than 0 % and less than 100 %",
                    "a wider gate lets any row through")) is { } refusal)
            return Calculated<Ratio>.Refuse(refusal);
        var properties = Properties(section);
        if (!properties.HasValue)
            return Calculated<Ratio>.Refuse(properties.Refusal!);
        var steel = properties.Value.SteelArea;
        var off = Ratio.FromDecimalFractions(tabulatedSteelArea / steel - 1);
        if (Math.Abs(off.DecimalFractions) > tolerance.DecimalFractions)
            return Calculated<Ratio>.Refuse("tabulated steel area", Measure.Of(tabulatedSteelArea),
                string.Create(CultureInfo.InvariantCulture, $"within {tolerance.Percent:0.###} % of the calculated {steel.SquareCentimeters:0.###} cm²"),
                "a row that the standard's own geometry cannot give is a misprint or another section");
        return Calculated<Ratio>.From(off, [.. properties.Steps,
            Line.Of("agreement with the table", "δ = A_table ÷ A − 1", off, "section geometry",
                Line.In("A_table", "tabulated steel area", tabulatedSteelArea), Line.In("A", "calculated steel area", steel))]);
    }

    /// <summary>
    /// Reads a designation. "HSS" means inches: HSS6X6X3/8, HSS8X6X1/4, HSS3-1/2X2-1/2X1/4; two numbers are round: HSS4.000X0.250.
    /// Without it, or with SHS, RHS or CHS, millimetres: 100x100x5; 114.3x5 is round; "SHS 100x5" is square.
    /// A wall printed to three decimals of an inch is a rounded sixteenth where it is one (0.188 means 3/16); AISC practice, from memory.
    /// Range: two or three positive numbers, and "HSS" with an ASTM standard only, as its dimensions are inches.
    /// </summary>
    public static Calculated<HollowSection> Parse(string designation, SectionStandard standard)
    {
        var text = designation.Trim().ToUpperInvariant();
        var prefix = text.Length >= 3 && text[..3] is "HSS" or "SHS" or "RHS" or "CHS" ? text[..3] : "";
        var inches = prefix == "HSS";
        var parts = text[prefix.Length..].Split('X', '×').Select(part => Number(part.Trim())).ToArray();
        if (parts.Length is not (2 or 3) || parts.Any(part => part is not > 0))
            return NotRead("two or three sizes above 0 with X between, such as HSS6X6X3/8 (inches) or 100x100x5 (millimetres)");
        if (inches && !IsAstm(standard))
            return NotRead("without HSS for a section to a European standard, in millimetres");
        if ((prefix == "CHS" && parts.Length != 2) || (prefix == "RHS" && parts.Length != 3) || (prefix == "SHS" && parts.Length == 3 && parts[0] != parts[1]))
            return NotRead("CHS with two sizes, RHS with three, SHS with a side and a wall");

        var round = parts.Length == 2 && prefix != "SHS";
        var wall = parts[^1]!.Value;
        var section = new HollowSection(
            standard,
            round ? SectionShape.Round : SectionShape.Rectangular,
            Size(parts[0]!.Value),
            Size(parts[parts.Length == 3 ? 1 : 0]!.Value),
            Size(inches ? AsSixteenths(wall) : wall));
        if (OutsideStandard(section) is { } refusal)
            return Calculated<HollowSection>.Refuse(refusal);
        return Calculated<HollowSection>.From(section, Line.Of(
            "section read from its designation", "H × B × t, or D × t", Measure.OfText(designation), "designation of " + StandardName(standard),
            Line.In("H", "outside depth or diameter", section.Depth),
            Line.In("B", "outside width", section.Width),
            Line.In("t", "nominal wall", section.NominalWall)));

        Length Size(decimal number) => inches ? Length.FromInches((double)number) : Length.FromMillimeters((double)number);

        Calculated<HollowSection> NotRead(string allowed) =>
            Calculated<HollowSection>.Refuse("section designation", Measure.OfText(designation), allowed, "the sizes cannot be read from it");
    }

    // 0.93 t in decimals: 0.93 × 0.250 in is a tie (0.2325) that must round up to the tabulated 0.233.
    private static Length DesignWall(HollowSection section) => section.Standard == SectionStandard.AstmA500
        ? Length.FromInches((double)Math.Round(0.93m * (decimal)section.NominalWall.Inches, 3, MidpointRounding.AwayFromZero))
        : section.NominalWall;

    private static Area VoidArea(HollowSection section, Length wall)
    {
        if (section.Shape == SectionShape.Round)
            return Circle(section.Depth - 2 * wall);
        return (section.Depth - 2 * wall) * (section.Width - 2 * wall) - CornerLoss(InsideRadius(section, wall));
    }

    private static Area OutlineArea(HollowSection section, Length wall) => section.Shape == SectionShape.Round
        ? Circle(section.Depth)
        : section.Depth * section.Width - CornerLoss(OutsideRadius(section, wall));

    private static Length OutsidePerimeter(HollowSection section, Length wall) => section.Shape == SectionShape.Round
        ? Math.PI * section.Depth
        : 2 * (section.Depth + section.Width) - (8 - 2 * Math.PI) * OutsideRadius(section, wall);

    private static Area Circle(Length diameter) => Math.PI / 4 * (diameter * diameter);

    private static Area CornerLoss(Length radius) => (4 - Math.PI) * (radius * radius);

    private static Length OutsideRadius(HollowSection section, Length wall) => section.Standard switch
    {
        SectionStandard.En10210 => 1.5 * wall,
        SectionStandard.En10219 => wall.Millimeters switch { <= 6 => 2.0, <= 10 => 2.5, _ => 3.0 } * wall,
        _ => 2.0 * wall,
    };

    private static Length InsideRadius(HollowSection section, Length wall) => section.Standard switch
    {
        SectionStandard.En10219 => wall.Millimeters switch { <= 6 => 1.0, <= 10 => 1.5, _ => 2.0 } * wall,
        _ => wall,
    };

    private static Length FlatCorner(HollowSection section, Length designWall) =>
        IsAstm(section.Standard) ? 2.25 * designWall : OutsideRadius(section, designWall);

    private static ImmutableArray<Term> Terms(HollowSection section, Length wall) => section.Shape == SectionShape.Round
        ? [Line.In("D", "outside diameter", section.Depth), Line.In("t", "wall", wall)]
        : [Line.In("H", "outside depth", section.Depth), Line.In("B", "outside width", section.Width), Line.In("t", "wall", wall),
            Line.In("r_i", "inside corner radius", InsideRadius(section, wall))];

    private static Refusal? OutsideStandard(HollowSection section)
    {
        if (Gate.First(
                Gate.Positive("outside depth", section.Depth),
                Gate.Positive("outside width", section.Width),
                Gate.Positive("nominal wall", section.NominalWall)) is { } refusal)
            return refusal;
        var round = section.Shape == SectionShape.Round;
        var wall = section.NominalWall;
        var largest = section.Depth > section.Width ? section.Depth : section.Width;
        var least = Least(section.Depth, section.Width);
        var periphery = round ? Math.PI * section.Depth : 2 * (section.Depth + section.Width);
        Said covered = "larger sections are outside the standard, so its radii are not known to hold (limits from memory)";
        return Gate.First(
            Gate.Require(!round || section.Depth.Equals(section.Width, Length.FromMicrometers(1)), "outside width", Measure.Of(section.Width), "equal to the diameter", "the section is round"),
            section.Standard switch
            {
                SectionStandard.En10210 => Gate.Require(wall.Millimeters <= 120, "nominal wall", Measure.Of(wall), "at most 120 mm", covered),
                SectionStandard.En10219 => Gate.Require(wall.Millimeters <= 40, "nominal wall", Measure.Of(wall), "at most 40 mm", covered),
                _ => Gate.Require(wall.Inches <= 1, "nominal wall", Measure.Of(wall), "at most 1 in", $"{covered}; a larger number may be in millimetres"),
            },
            section.Standard switch
            {
                SectionStandard.En10210 => Gate.Require(largest.Millimeters <= (round ? 2500 : 800), "outside size", Measure.Of(largest), "at most 800 mm, round 2,500 mm", covered),
                SectionStandard.En10219 => Gate.Require(largest.Millimeters <= (round ? 2500 : 500), "outside size", Measure.Of(largest), "at most 500 mm, round 2,500 mm", covered),
                _ => Gate.Require(periphery.Inches <= 88, "outside periphery", Measure.Of(periphery), "at most 88 in", covered),
            },
            Gate.Require(round ? 2 * wall < least : 2 * OutsideRadius(section, wall) <= least, "nominal wall", Measure.Of(wall),
                round ? "less than half the diameter" : "thin enough that the corner radii do not meet", "the section would have no void of the standard's shape"));
    }

    private static Length Least(Length a, Length b) => a < b ? a : b;

    private static bool IsAstm(SectionStandard standard) => standard is SectionStandard.AstmA500 or SectionStandard.AstmA1085;

    private static string StandardName(SectionStandard standard) => standard switch
    {
        SectionStandard.En10210 => "EN 10210-2 (hot finished; radii read as quoted, checked against tables)",
        SectionStandard.En10219 => "EN 10219-2 (cold formed; radii read as quoted, checked against tables)",
        SectionStandard.AstmA500 => "ASTM A500 as tabulated (wall and radii read and checked against tabulated rows)",
        _ => "ASTM A1085 (nominal wall; from memory)",
    };

    // "6", "0.250", "3/8", "3-1/2" or "3 1/2"; null when it is none of them.
    private static decimal? Number(string text)
    {
        var whole = 0m;
        var gap = text.IndexOfAny(['-', ' ']);
        if (gap > 0)
        {
            if (!Digits(text[..gap], out whole) || !text.Contains('/', StringComparison.Ordinal))
                return null;
            text = text[(gap + 1)..];
        }

        var slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0)
            return Digits(text, out var plain) ? plain : null;
        return Digits(text[..slash], out var over) && Digits(text[(slash + 1)..], out var under) && under > 0 ? whole + over / under : null;
    }

    // At most nine characters: no section needs more, and a longer number cannot then overflow.
    private static bool Digits(string text, out decimal number)
    {
        number = 0;
        return text.Length is > 0 and <= 9 && decimal.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);
    }

    private static decimal AsSixteenths(decimal wall)
    {
        var sixteenths = Math.Round(wall * 16) / 16;
        return sixteenths > 0 && Math.Abs(wall - sixteenths) <= 0.0005m ? sixteenths : wall;
    }
}
