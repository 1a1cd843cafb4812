using System.Collections.Concurrent;
using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Exchange;

/// <summary>
/// Violations in other languages than English. Their words stand in <c>Words</c> beside what reads plans, each under its English pattern,
/// and in no rule set: a plan that cannot be read is refused whatever it is judged by.
/// </summary>
public static class ViolationWords
{
    private static readonly ConcurrentDictionary<string, ImmutableDictionary<string, string>> Known = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Violations in a language; in English where nobody has translated them.</summary>
    /// <param name="violations">The violations.</param>
    /// <param name="tag">The language, a tag by BCP 47 such as es or fr-CA; null or empty: English.</param>
    public static IReadOnlyList<Violation> In(IReadOnlyList<Violation> violations, string? tag) =>
        tag is { Length: > 0 } && violations.Count > 0 && Of(tag) is { IsEmpty: false } patterns ? [.. violations.Select(violation => violation.In(patterns))] : violations;

    /// <summary>The words of a language by their English pattern; empty where there are none.</summary>
    /// <param name="tag">The language; without a translation of its own, that of the tag without its last parts.</param>
    public static ImmutableDictionary<string, string> Of(string tag)
    {
        // Only languages that ship are kept: a caller names what he likes.
        var language = tag.Split('-')[0].ToLowerInvariant();
        using var stream = Known.ContainsKey(language) ? null : typeof(ViolationWords).Assembly.GetManifestResourceStream($"words/{language}.yaml");
        return stream is null ? Known.GetValueOrDefault(language, []) : Known.GetOrAdd(language, _ => Read(language, stream));
    }

    private static ImmutableDictionary<string, string> Read(string language, Stream stream)
    {
        using var reader = new StreamReader(stream);
        return ((MapNode)DataText.ReadYaml(reader.ReadToEnd()).Root!).Entries.ToImmutableDictionary(entry => entry.Name, entry => Typography.In(language, ((ScalarNode)entry.Value).Text!));
    }
}
