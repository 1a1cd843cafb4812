using System.Collections.Frozen;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Hazards;

/// <summary>The rule sets' words for hazards.</summary>
internal static class HazardTexts
{
    private static readonly FrozenDictionary<HazardKind, string> Ids = Enum.GetValues<HazardKind>().ToFrozenDictionary(kind => kind, Id);

    public static string IdOf(HazardKind kind) => Ids[kind];

    private static string Id(HazardKind kind) =>
        string.Concat(kind.ToString().Select((c, i) => char.IsUpper(c) && i > 0 ? $"-{char.ToLowerInvariant(c)}" : $"{char.ToLowerInvariant(c)}"));

    public static HazardEntry Of(RuleBook book, HazardKind kind) =>
        book.Hazards.GetValueOrDefault(IdOf(kind)) ?? throw new KeyNotFoundException($"hazards.yaml has no {IdOf(kind)}");
}
