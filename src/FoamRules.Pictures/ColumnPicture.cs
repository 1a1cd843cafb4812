using System.Globalization;
using System.Net;
using System.Text;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Pictures;

/// <summary>A hollow member drawn to scale along its height: its compartments, its holes, its shots and the foam they give.</summary>
public static class ColumnPicture
{
    private const double Top = 50;
    private const double Drawn = 360;
    private const double Left = 190;
    private const double Width = 70;

    /// <summary>Draws a member.</summary>
    /// <param name="fill">The fill, with its height, holes and compartments.</param>
    /// <param name="levels">The level that foam reaches after each pour, above the foot; empty where it is not worked out.</param>
    /// <param name="units">The units of the dimensions.</param>
    /// <param name="said">The words; English where they are left out.</param>
    /// <returns>The picture as SVG; null where the height is not given.</returns>
    public static string? Draw(CavityFill fill, IReadOnlyList<(Length Level, string Words)> levels, DisplayUnits units, PictureWords? said = null)
    {
        said ??= PictureWords.English;
        if (fill.Height is not { } height || height.Meters <= 0)
        {
            return null;
        }

        var body = new StringBuilder();
        var highest = levels.Select(level => level.Level.Meters).Append(0).Max();
        if (highest > 0)
        {
            var top = Y(Length.FromMeters(Math.Min(highest, height.Meters)), height);
            body.Append(CultureInfo.InvariantCulture, $"<rect x=\"{Left}\" y=\"{top:0.#}\" width=\"{Width}\" height=\"{Top + Drawn - top:0.#}\" fill=\"#f0e6c8\"/>");
        }

        foreach (var (level, words) in levels)
        {
            var y = Y(level, height);
            body.Append(CultureInfo.InvariantCulture, $"<line x1=\"{Left}\" y1=\"{y:0.#}\" x2=\"{Left + Width}\" y2=\"{y:0.#}\" stroke=\"#8a7a45\" stroke-dasharray=\"4 3\"/>");
            Label(body, Left - 12, y, "end", $"{words}: {said.Show(level, units)}");
        }

        body.Append(CultureInfo.InvariantCulture, $"<rect x=\"{Left}\" y=\"{Top}\" width=\"{Width}\" height=\"{Drawn}\" fill=\"none\" stroke=\"#222\" stroke-width=\"3\"/>");
        foreach (var at in fill.Compartments.Select(compartment => compartment.To).OfType<Length>().Where(at => at < height))
        {
            var y = Y(at, height);
            body.Append(CultureInfo.InvariantCulture, $"<line x1=\"{Left}\" y1=\"{y:0.#}\" x2=\"{Left + Width}\" y2=\"{y:0.#}\" stroke=\"#222\" stroke-width=\"3\"/>");
        }

        Holes(body, fill.FillHoles, height, units, said, isFilled: true);
        Holes(body, fill.VentHoles, height, units, said, isFilled: false);
        Label(body, Left + (Width / 2), Top + Drawn + 22, "middle", said.Say("height", "height {height}", ("height", said.Show(height, units))));
        var title = said.Say("column", "The cavity with its holes and the foam");
        Label(body, 250, 24, "middle", title, weight: 600);
        var description = said.Say(
            "column-told", "fill holes: {fills}; vents: {vents}; foam levels: {levels}",
            ("fills", Number(fill.FillHoles?.Holes.Length)), ("vents", Number(fill.VentHoles?.Holes.Length)), ("levels", Number(levels.Count)));
        return Svg.Describe($"<svg><rect width=\"500\" height=\"450\" fill=\"#fff\"/><g font-family=\"sans-serif\" font-size=\"13\" fill=\"#222\">{body}</g></svg>", title, description, 500, 450);
    }

    private static void Holes(StringBuilder body, HoleList? holes, Length height, DisplayUnits units, PictureWords said, bool isFilled)
    {
        foreach (var hole in holes?.Holes ?? [])
        {
            if (hole.Height is not { } at)
            {
                continue;
            }

            var y = Y(at, height);
            body.Append(CultureInfo.InvariantCulture, $"<circle cx=\"{Left + Width}\" cy=\"{y:0.#}\" r=\"6\" fill=\"{(isFilled ? "#222" : "#fff")}\" stroke=\"#222\" stroke-width=\"2\"/>");
            var size = hole.Diameter is { } diameter ? $" {said.Show(diameter, units)}" : "";
            var words = isFilled ? said.Say("fill-hole", "fill hole{size} at {height}", ("size", size), ("height", said.Show(at, units)))
                : said.Say("vent", "vent{size} at {height}", ("size", size), ("height", said.Show(at, units)));
            Label(body, Left + Width + 14, y + (isFilled ? 6 : -4), "start", words);
        }
    }

    private static string Number(int? count) => (count ?? 0).ToString(CultureInfo.InvariantCulture);

    private static double Y(Length above, Length height) => Top + (Drawn * (1 - (above.Meters / height.Meters)));

    private static void Label(StringBuilder body, double x, double y, string anchor, string words, int weight = 400) =>
        body.Append(CultureInfo.InvariantCulture, $"<text x=\"{x:0.#}\" y=\"{y + 4:0.#}\" text-anchor=\"{anchor}\" font-weight=\"{weight}\">{WebUtility.HtmlEncode(words)}</text>");
}
