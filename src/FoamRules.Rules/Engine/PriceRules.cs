using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>The lines of the price list as the rule sets give them, checked when the engine starts.</summary>
internal sealed class PriceRules
{
    /// <exception cref="RuleSetMismatchException">A line asks for what is not there.</exception>
    public PriceRules(RuleBook book)
    {
        Entries = book.Prices;
        var problems = Entries.SelectMany(entry => ProblemsOf(entry, book)).ToList();
        if (problems.Count > 0)
        {
            throw new RuleSetMismatchException("price", string.Join("; ", problems));
        }
    }

    /// <summary>The lines in the order in which they are listed.</summary>
    public ImmutableArray<PriceEntry> Entries { get; }

    private static IEnumerable<string> ProblemsOf(PriceEntry entry, RuleBook book)
    {
        if (!book.Requirements.TryGetValue(entry.AskedBy, out var spec))
        {
            yield return $"{entry.Place with { Found = $"asked-by {entry.AskedBy}", Allowed = "the id of a requirement", Remedy = "name the requirement that asks for it" }}";
        }

        if (!PriceQuantityKind.All.TryGetValue(entry.Quantity, out var kind))
        {
            yield return $"{entry.Place with { Found = $"quantity {entry.Quantity}", Allowed = string.Join(", ", PriceQuantityKind.All.Keys), Remedy = "use one of these" }}";
        }
        else if (kind.Ways.Where(way => !entry.How.ContainsKey(way)).ToList() is { Count: > 0 } lacking)
        {
            yield return $"{entry.Place with { Found = $"no how for {string.Join(", ", lacking.Select(way => $"`{way}`"))}", Allowed = $"how with {string.Join(", ", kind.Ways.Select(way => $"`{way}`"))}", Remedy = "say how it is worked out" }}";
        }

        if (entry.Quantity == "limit" && spec is not null && !spec.Limits.ContainsKey(entry.Limit ?? ""))
        {
            yield return $"{entry.Place with { Found = $"limit {entry.Limit}", Allowed = string.Join(", ", spec.Limits.Keys), Remedy = "name a limit of the requirement" }}";
        }
    }
}
