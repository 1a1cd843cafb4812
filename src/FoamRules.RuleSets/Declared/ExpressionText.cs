using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets.Declared;

/// <summary>An expression as it stands in a rule set. It knows where each of its characters stands in the file.</summary>
public sealed class ExpressionText
{
    private readonly (int Line, int Column)[] _places;

    private ExpressionText(string text, string path, string? file, (int Line, int Column)[] places)
    {
        Text = text;
        Path = path;
        File = file;
        _places = places;
    }

    /// <summary>The expression.</summary>
    public string Text { get; }

    /// <summary>Its path in the rule set, such as <c>paper.emergency-plan.met</c>.</summary>
    public string Path { get; }

    /// <summary>The file; null where there is none.</summary>
    public string? File { get; }

    /// <summary>An expression that stands in no file: its places are those of its own text.</summary>
    internal static ExpressionText Alone(string text) => new(text, "", null, Align(text, text.Split('\n'), 1, 1));

    internal static ExpressionText Read(ScalarNode node, string path, Problems problems) =>
        new(node.Text!, path, problems.File, Align(node.Text!, problems.Source, node.Line, node.Column));

    internal Violation Violation(int offset, string found, string allowed, string remedy)
    {
        var (line, column) = _places[Math.Clamp(offset, 0, _places.Length - 1)];
        return new Violation(Path, found, allowed, remedy, line, column, File);
    }

    // YAML folds lines, takes quotes off and resolves escapes, but it leaves every other character in its order: so each one is
    // the next equal one of the file.
    private static (int, int)[] Align(string text, IReadOnlyList<string> lines, int line, int column)
    {
        var places = new (int, int)[text.Length + 1];
        var start = (line, column);
        for (var i = 0; i < text.Length; i++)
        {
            while (!char.IsWhiteSpace(text[i]) && line <= lines.Count && (column > lines[line - 1].Length || lines[line - 1][column - 1] != text[i]))
            {
                (line, column) = column >= lines[line - 1].Length ? (line + 1, 1) : (line, column + 1);
            }

            places[i] = line <= lines.Count ? (line, column) : start;
            if (!char.IsWhiteSpace(text[i]))
            {
                column++;
            }
        }

        places[text.Length] = line <= lines.Count ? (line, column) : start;
        return places;
    }
}

/// <summary>What is wrong with an expression, at one of its characters.</summary>
internal sealed class ExpressionException(int offset, string found, string allowed, string remedy) : Exception($"{found}; allowed: {allowed}; {remedy}")
{
    public int Offset { get; } = offset;

    public Violation In(ExpressionText text) => text.Violation(Offset, found, allowed, remedy);
}
