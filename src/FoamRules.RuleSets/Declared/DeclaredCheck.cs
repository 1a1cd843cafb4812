using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets.Declared;

/// <summary>Checks declared requirements when rule sets are read: every name, every type, every word that a report will need.</summary>
internal static partial class DeclaredCheck
{
    /// <summary>What is wrong with the declared requirements of all rule sets.</summary>
    /// <param name="all">All rule sets.</param>
    /// <param name="bookOf">The book of some of them, by their ids.</param>
    public static IReadOnlyList<Violation> Check(IReadOnlyDictionary<string, RuleSet> all, Func<IEnumerable<string>, RuleBook> bookOf)
    {
        var problems = new Problems();
        var declaredIn = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var set in all.Values.Where(set => set.Requirements.Values.Any(entry => entry.Declared is not null)).OrderBy(set => set.Level).ThenBy(set => set.Id, StringComparer.Ordinal))
        {
            var book = bookOf(Layering.Closure(set.Id, all).Append(set.Id));
            foreach (var entry in set.Requirements.Values.Where(entry => entry.Declared is not null))
            {
                var spec = book.Requirements[entry.Id];
                if (!declaredIn.TryAdd(entry.Id, set.Id) || spec.Layers[0] != set.Id)
                {
                    problems.Add(
                        entry.Place, $"how it is judged, which {declaredIn[entry.Id]} or a layer below says already", "one rule set that says it", "tighten its limits, or declare a requirement of its own");
                    continue;
                }

                CheckHazard(entry.Declared!, book, problems);
                var rule = CompiledRule.Compile(entry.Declared!, spec.Limits, out var wrong);
                problems.AddRange(wrong);
                CheckWords(entry, spec, rule, problems);
            }
        }

        return problems.All;
    }

    private static void CheckHazard(DeclaredRule rule, RuleBook book, Problems problems)
    {
        if (!book.Hazards.ContainsKey(rule.Hazard))
        {
            var nearest = book.Hazards.Keys.MinBy(known => Closeness.Distance(known, rule.Hazard));
            problems.Add(rule.Place, $"the unknown hazard `{rule.Hazard}`", string.Join(", ", book.Hazards.Keys), nearest is null ? "state it in hazards.yaml" : $"did you mean {nearest}?");
        }
    }

    private static void CheckWords(RequirementEntry entry, RequirementSpec spec, CompiledRule? rule, Problems problems)
    {
        foreach (var (name, isGiven) in new[]
        {
            ("says", spec.Says.ContainsKey("not-met")),
            ("remedy", spec.Remedies.ContainsKey("")),
            ("caution", spec.Caution.Length > 0),
            ("example", spec.Example.Length > 0),
            ("not-applicable", entry.Declared!.Applies is null || spec.NotApplicable.ContainsKey(CompiledRule.DoesNotApply)),
        })
        {
            if (!isGiven)
            {
                problems.Add(entry.Place, $"no {name}", name == "not-applicable" ? $"not-applicable: {{ {CompiledRule.DoesNotApply}: why }}" : name, "write it");
            }
        }

        // The value, the limit and the margin are known only where each part holds one field against a limit.
        string[] always = ["lacks"];
        var words = rule is not null && rule.Met.All(part => part.Against is not null) ? [.. always, "value", "limit", "margin"] : always;
        var filled = spec.Says.GetValueOrDefault("not-met", "") + spec.Remedies.GetValueOrDefault("", "");
        foreach (var unknown in Placeholder().Matches(filled).Select(match => match.Groups[1].Value).Except(words))
        {
            problems.Add(entry.Place, $"the placeholder {{{unknown}}}", string.Join(", ", words), "take it out; value, limit and margin stand only where each part of met holds one field against a limit");
        }
    }

    [GeneratedRegex(@"\{([^}]*)\}")]
    private static partial Regex Placeholder();
}
