using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>By what rule sets are chosen for a plan.</summary>
/// <param name="Country">The plan's country by ISO 3166-1; null where it is not given.</param>
/// <param name="Region">The plan's region by ISO 3166-2; null where it is not given.</param>
/// <param name="WorkDate">The day of the work; null where it is not given. No other day stands in for it.</param>
/// <param name="Named">What the plan or the caller names: ids of rule sets, or documents of which they are editions.</param>
public sealed record RuleSetQuestion(string? Country, string? Region, DateOnly? WorkDate, IReadOnlyList<string> Named);

/// <summary>The rule sets for a plan, or why there are none.</summary>
/// <param name="Layers">The rule sets, the lowest first; empty where there are violations.</param>
/// <param name="Notes">How they were chosen, where that is not plain from the plan; the keys are those of <c>texts.yaml</c>.</param>
/// <param name="Violations">Names that cannot be used.</param>
public sealed record RuleSetChoice(ImmutableArray<RuleSet> Layers, ImmutableArray<Phrase> Notes, ImmutableArray<Violation> Violations)
{
    /// <summary>The rule sets' ids, joined: the same for the same layers.</summary>
    public string Key => string.Join('+', Layers.Select(layer => layer.Id));
}
