using FoamRules.Model;

namespace FoamRules.Text;

/// <summary>A text as a tree, or what is wrong with it.</summary>
/// <param name="Root">The tree; null where the text cannot be read.</param>
/// <param name="Violations">What is wrong; empty where the text can be read.</param>
public sealed record DataText(DataNode? Root, IReadOnlyList<Violation> Violations)
{
    /// <summary>The deepest nesting that is read; a plan nests to about ten.</summary>
    public const int MaxDepth = 64;

    /// <summary>Reads YAML, or JSON where the text begins with a brace. Aliases are not expanded: a small text must not become a large one.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">The file's name, for messages; null where there is none.</param>
    public static DataText Read(string text, string? file) =>
        text.AsSpan().TrimStart().StartsWith("{") ? JsonText.Read(text, file) : YamlText.Read(text, file);

    /// <summary>Reads JSON, and nothing else.</summary>
    /// <param name="text">The text.</param>
    public static DataText ReadJson(string text) => JsonText.Read(text, null);

    /// <summary>Reads YAML; JSON is YAML, too.</summary>
    /// <param name="text">The text.</param>
    public static DataText ReadYaml(string text) => YamlText.Read(text, null);

    internal static DataText Failed(Said found, Said allowed, Said remedy, int line, int column, string? file) =>
        new(null, [new Violation("", found, allowed, remedy, line, column, file)]);
}
