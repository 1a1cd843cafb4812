using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Declared;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>Makes all mutants of one requirement: every limit moved, every severity changed, every condition turned round or left out.</summary>
internal static class MutantMaker
{
    /// <summary>All mutants.</summary>
    /// <param name="specs">The requirement as each rule book of its cases states it.</param>
    /// <param name="held">The values that the cases hold against a limit, by its name and rule set.</param>
    public static IEnumerable<Mutant> All(IReadOnlyList<RequirementSpec> specs, ILookup<(string Name, string Layer), Measure> held) =>
        Limits(specs, held).Concat(SeverityCells(specs)).Concat(Conditions(specs[0]));

    private static IEnumerable<Mutant> Limits(IReadOnlyList<RequirementSpec> specs, ILookup<(string Name, string Layer), Measure> held) =>
        from limit in specs.SelectMany(spec => spec.Limits.Values).Concat(Said(specs).SelectMany(entry => entry.Limits.Values)).DistinctBy(limit => (limit.Name, limit.Layer)).ToList()
        where !IsOfAnother(specs[0], limit)
        from move in LimitMutants.Of(limit, [.. held[(limit.Name, limit.Layer)]])
        select Mutant.OfSpec($"limit {limit.Name} of {limit.Layer}: {move.Name}", spec =>
            spec.Limits.GetValueOrDefault(limit.Name) is { } one && one.Layer == limit.Layer ? spec with { Limits = spec.Limits.SetItem(limit.Name, move.Move(one)) } : null);

    // What each rule set of the library says, also those that no case brings into force.
    private static IEnumerable<RequirementEntry> Said(IReadOnlyList<RequirementSpec> specs) =>
        Repository.Engine.Library.RuleSets.Values.Select(set => set.Requirements.GetValueOrDefault(specs[0].Id)).OfType<RequirementEntry>();

    // Those are moved with the requirement to which they belong.
    private static bool IsOfAnother(RequirementSpec spec, Limit limit) => spec.LimitsOf.Any(other => limit.Name.StartsWith(other + ".", StringComparison.Ordinal));

    private static IEnumerable<Mutant> SeverityCells(IReadOnlyList<RequirementSpec> specs)
    {
        foreach (var stage in Enum.GetValues<Stage>())
        {
            foreach (var severity in Given(specs, spec => spec.NotMet.At(stage), entry => entry.NotMet?.At(stage)))
            {
                yield return Mutant.OfSpec($"not-met at {stage}: {Other(severity)}, not {severity}", spec => spec.NotMet.At(stage) == severity ? spec with { NotMet = With(spec.NotMet, stage, Other(severity)) } : null);
            }

            foreach (var severity in Given(specs, spec => spec.Missing.At(stage), entry => entry.Missing?.At(stage)))
            {
                yield return Mutant.OfSpec($"missing at {stage}: {Other(severity)}, not {severity}", spec => spec.Missing.At(stage) == severity ? spec with { Missing = With(spec.Missing, stage, Other(severity)) } : null);
            }

            foreach (var name in specs.SelectMany(spec => spec.Tiers.Keys).Concat(Said(specs).SelectMany(entry => entry.Tiers.Keys)).Distinct().ToList())
            {
                foreach (var severity in Given(specs, spec => spec.Tiers.GetValueOrDefault(name)?.NotMet.At(stage), entry => entry.Tiers.GetValueOrDefault(name)?.NotMet.At(stage)))
                {
                    yield return Mutant.OfSpec($"tier {name}, not-met at {stage}: {Other(severity)}, not {severity}", spec => spec.Tiers.GetValueOrDefault(name) is { } tier && tier.NotMet.At(stage) == severity
                        ? spec with { Tiers = spec.Tiers.SetItem(name, tier with { NotMet = With(tier.NotMet, stage, Other(severity)) }) } : null);
                }

                foreach (var severity in Given(specs, spec => spec.Tiers.GetValueOrDefault(name)?.Missing?.At(stage), entry => entry.Tiers.GetValueOrDefault(name)?.Missing?.At(stage)))
                {
                    yield return Mutant.OfSpec($"tier {name}, missing at {stage}: {Other(severity)}, not {severity}", spec => spec.Tiers.GetValueOrDefault(name) is { Missing: { } missing } tier && missing.At(stage) == severity
                        ? spec with { Tiers = spec.Tiers.SetItem(name, tier with { Missing = With(missing, stage, Other(severity)) }) } : null);
                }
            }
        }
    }

    private static List<Severity> Given(IReadOnlyList<RequirementSpec> specs, Func<RequirementSpec, Severity?> cell, Func<RequirementEntry, Severity?> said) =>
        [.. specs.Select(cell).Concat(Said(specs).Select(said)).OfType<Severity>().Distinct()];

    // A change that a weak source's cap cannot hide: a stop of a weak source is a hold already.
    private static Severity Other(Severity severity) => severity == Severity.Caution ? Severity.HoldPoint : Severity.Caution;

    private static Severities With(Severities row, Stage stage, Severity severity) => stage switch
    {
        Stage.Quote => row with { Quote = severity },
        Stage.Plan => row with { Plan = severity },
        Stage.PreStart => row with { PreStart = severity },
        _ => row with { CloseOut = severity },
    };

    private static IEnumerable<Mutant> Conditions(RequirementSpec spec)
    {
        yield return Mutant.OfJudging("met and not met changed about", requirement => new SpoiledRequirement.Negated(requirement));
        yield return Mutant.OfJudging("an unknown passes", requirement => new SpoiledRequirement.UnknownIsMet(requirement));
        yield return Mutant.OfJudging("never applies", requirement => new SpoiledRequirement.NeverApplies(requirement));
        if (spec.NotApplicable.Count > 0)
        {
            yield return Mutant.OfJudging("always applies", requirement => new SpoiledRequirement.AlwaysApplies(requirement));
        }

        if (spec.Declared is not { } rule)
        {
            yield break;
        }

        var parts = PartsOf(rule.Met.Text);
        for (var i = 0; i < parts.Count; i++)
        {
            var (at, part) = (i, parts[i]);
            yield return Met($"without the part {part}", parts.Count == 1 ? "true" : string.Join(" && ", parts.Where((_, index) => index != at)));
            yield return Met($"the part {part} turned round", string.Join(" && ", parts.Select((one, index) => index == at ? $"!({one})" : one)));
        }

        Mutant Met(string name, string text) => Mutant.OfSpec(name, one => one with { Declared = one.Declared! with { Met = ExpressionText.Alone(text) } });
    }

    // The parts that && joins at the top, as they are written.
    private static List<string> PartsOf(string text)
    {
        var starts = Binary.Parts(SyntaxReader.Read(text)).Count();
        var parts = new List<string>();
        var (depth, from, quoted) = (0, 0, '\0');
        for (var i = 0; i < text.Length; i++)
        {
            quoted = quoted == '\0' && text[i] is '"' or '\'' ? text[i] : quoted == text[i] ? '\0' : quoted;
            depth += quoted != '\0' ? 0 : text[i] is '(' or '[' or '{' ? 1 : text[i] is ')' or ']' or '}' ? -1 : 0;
            if (quoted == '\0' && depth == 0 && text[i] == '&' && text[i + 1] == '&')
            {
                parts.Add(text[from..i].Trim());
                from = i + 2;
                i++;
            }
        }

        parts.Add(text[from..].Trim());
        // `a && b || c` has no parts at the top: it is one.
        return parts.Count == starts ? parts : [text];
    }
}
