using System.Collections.Immutable;

namespace FoamRules.Pages;

/// <summary>Files that travel inside the assembly: styles, scripts, words, example plans.</summary>
internal static class Resources
{
    /// <summary>The names of the files of a folder, in order.</summary>
    public static ImmutableArray<string> In(string folder) =>
    [
        .. typeof(Resources).Assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith($"{folder}/", StringComparison.Ordinal)).Select(name => name[(folder.Length + 1)..]).Order(StringComparer.Ordinal),
    ];

    /// <summary>The text of a file.</summary>
    public static string Text(string folder, string name)
    {
        using var reader = new StreamReader(typeof(Resources).Assembly.GetManifestResourceStream($"{folder}/{name}")!);
        return reader.ReadToEnd();
    }
}
