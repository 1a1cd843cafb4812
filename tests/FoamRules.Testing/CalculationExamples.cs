namespace FoamRules.Testing;

/// <summary>The example inputs in shared/calculations, a file a calculation.</summary>
public static class CalculationExamples
{
    /// <summary>The calculations' names, as the files have them.</summary>
    public static IReadOnlyList<string> Names { get; } =
        [.. Directory.GetFiles(Repository.PathOf("shared", "calculations"), "*.yaml").Select(file => Path.GetFileNameWithoutExtension(file)).Order(StringComparer.Ordinal)];

    /// <summary>The file of an example.</summary>
    public static string FileOf(string name) => Repository.PathOf("shared", "calculations", name + ".yaml");

    /// <summary>The text of an example.</summary>
    public static string TextOf(string name) => File.ReadAllText(FileOf(name));
}
