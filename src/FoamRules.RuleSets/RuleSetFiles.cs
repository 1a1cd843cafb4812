using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;

namespace FoamRules.RuleSets;

/// <summary>One file of a rule set.</summary>
/// <param name="Name">Its name below the rule set's folder, such as <c>vent.yaml</c> or <c>languages/es/vent.yaml</c>.</param>
/// <param name="Text">What stands in it.</param>
public sealed record RuleSetFile(string Name, string Text);

/// <summary>The files of one rule set, all read before any is looked at: what is checked is what is used.</summary>
/// <param name="Id">The rule set's id.</param>
/// <param name="Files">The files, by name.</param>
public sealed record RuleSetFiles(string Id, ImmutableArray<RuleSetFile> Files)
{
    /// <summary>SHA-256 of the names and texts, in hexadecimal.</summary>
    public string Digest { get; } = Hash(string.Concat(Files.Select(file => $"{file.Name}\n{file.Text}\n")));

    /// <summary>The files of a folder, whose name is the rule set's id.</summary>
    public static RuleSetFiles InFolder(string folder) => new(
        Path.GetFileName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder))),
        [.. Directory.GetFiles(folder, "*.yaml").Concat(Translations(folder)).Select(file => new RuleSetFile(Path.GetRelativePath(folder, file).Replace('\\', '/'), File.ReadAllText(file))).OrderBy(file => file.Name, StringComparer.Ordinal)]);

    /// <summary>The files of every rule set below a folder; a folder whose name begins with a point, or without a YAML file, is none.</summary>
    public static ImmutableArray<RuleSetFiles> Below(string folder) =>
        [.. Directory.GetDirectories(folder).Where(one => !Path.GetFileName(one).StartsWith('.')).Order(StringComparer.Ordinal).Select(InFolder).Where(set => set.Files.Length > 0)];

    /// <summary>One digest of several rule sets, by their ids and digests: the same wherever the same texts stand.</summary>
    public static string DigestOf(IEnumerable<(string Id, string Digest)> sets) =>
        Hash(string.Concat(sets.OrderBy(set => set.Id, StringComparer.Ordinal).Select(set => $"{set.Id} {set.Digest}\n")));

    // Translations count in the digest: what a stored report says must be made again from the same texts.
    private static IEnumerable<string> Translations(string folder)
    {
        var languages = Path.Combine(folder, Translation.Folder);
        return Directory.Exists(languages) ? Directory.GetDirectories(languages).SelectMany(language => Directory.GetFiles(language, "*.yaml")) : [];
    }

    private static string Hash(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
