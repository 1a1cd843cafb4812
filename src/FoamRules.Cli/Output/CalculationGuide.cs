using System.Text;

namespace FoamRules.Cli.Output;

/// <summary>
/// What a calculation is, assumes and rests on, as docs/calculations.md says it: the document ships inside the command, so
/// that both say the same. A calculation's section has its name as heading, then a sentence, paragraphs that begin with a
/// bold word, and an example input as a block of YAML.
/// </summary>
internal static class CalculationGuide
{
    private const string Fence = "```";
    private static readonly Lazy<string[]> Document = new(Load);

    /// <summary>A list, a line each.</summary>
    public static string List(IEnumerable<string> names)
    {
        var output = new StringBuilder();
        string[] all = [.. names];
        var widest = all.Max(name => name.Length);
        foreach (var name in all)
        {
            Paragraph.Write(output, name.PadRight(widest + 2), Paragraphs(name)[0]);
        }

        output.AppendLine().AppendLine("`foamrules calc NAME` explains one; `foamrules calc NAME --input FILE` calculates.");
        return output.ToString();
    }

    /// <summary>One calculation: what it assumes, its range, its source, an example input.</summary>
    public static string Explain(string name)
    {
        var output = new StringBuilder().AppendLine(name);
        foreach (var paragraph in Paragraphs(name))
        {
            var bold = paragraph.StartsWith("**", StringComparison.Ordinal) ? paragraph.IndexOf("**", 2, StringComparison.Ordinal) : -1;
            Paragraph.Write(output, bold < 0 ? "  " : "  " + paragraph[2..bold].TrimEnd('.').PadRight(9), bold < 0 ? paragraph : paragraph[(bold + 2)..]);
        }

        output.AppendLine().AppendLine("  Example input:").AppendLine();
        foreach (var line in Example(name))
        {
            output.AppendLine("    " + line);
        }

        output.AppendLine().AppendLine("  Calculate with: foamrules calc " + name + " --input FILE");
        return output.ToString();
    }

    // The paragraphs before the example.
    private static List<string> Paragraphs(string name)
    {
        var paragraphs = new List<string> { "" };
        foreach (var line in Section(name).TakeWhile(line => !line.StartsWith(Fence, StringComparison.Ordinal)))
        {
            if (line.Length > 0)
            {
                paragraphs[^1] = paragraphs[^1].Length == 0 ? line : paragraphs[^1] + " " + line;
            }
            else if (paragraphs[^1].Length > 0)
            {
                paragraphs.Add("");
            }
        }

        paragraphs.RemoveAll(paragraph => paragraph.Length == 0);
        return paragraphs;
    }

    private static IEnumerable<string> Example(string name) =>
        Section(name).SkipWhile(line => !line.StartsWith(Fence, StringComparison.Ordinal)).Skip(1).TakeWhile(line => line != Fence);

    private static IEnumerable<string> Section(string name) =>
        Document.Value.SkipWhile(line => line != "## " + name).Skip(1).TakeWhile(line => !line.StartsWith("## ", StringComparison.Ordinal));

    private static string[] Load()
    {
        using var stream = typeof(CalculationGuide).Assembly.GetManifestResourceStream("calculations.md")!;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd().ReplaceLineEndings("\n").Split('\n');
    }
}
