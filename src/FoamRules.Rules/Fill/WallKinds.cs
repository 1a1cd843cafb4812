using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>Kinds of wall that a rule set lists, by the contract's names with hyphens, such as <c>structural-steel</c>.</summary>
public sealed class WallKinds
{
    private readonly ImmutableHashSet<WallKind> _kinds;

    /// <summary>Reads them.</summary>
    /// <param name="limit">A limit with <c>any-of</c>.</param>
    /// <exception cref="RuleSetMismatchException">A word is no kind of wall.</exception>
    public WallKinds(Limit limit) => _kinds = [.. limit.Words.Select(word =>
        Enum.TryParse<WallKind>(word.Replace("-", "", StringComparison.Ordinal), ignoreCase: true, out var kind)
            ? kind
            : throw new RuleSetMismatchException(limit.Name, $"{word} is no kind of wall"))];

    /// <summary>True where the rule set lists it.</summary>
    public bool Contains(WallKind wall) => _kinds.Contains(wall);
}
