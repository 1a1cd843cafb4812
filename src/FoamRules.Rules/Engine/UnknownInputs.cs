using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>What is not known, ranked: the worst that could come out first, then what most requirements wait for; each with its question.</summary>
internal sealed partial class UnknownInputs(RuleBook book)
{
    public ImmutableArray<UnknownInput> Of(IReadOnlyList<Assessment> assessments) =>
        [.. assessments.Where(assessment => assessment.Verdict is { Outcome: Outcome.Undetermined })
            .SelectMany(assessment => assessment.Verdict!.MissingFields.Select(field => (field.Path, assessment)))
            .GroupBy(pair => pair.Path, StringComparer.Ordinal)
            .Select(group => new UnknownInput(
                group.Key,
                group.Count(),
                group.Max(pair => Worst(pair.assessment.Requirement, pair.assessment.Bearer.Stage)),
                [.. group.Select(pair => pair.assessment.Requirement.Spec.Id).Distinct().Order(StringComparer.Ordinal)],
                QuestionFor(group.Key)))
            .OrderByDescending(unknown => unknown.Worst ?? 0).ThenByDescending(unknown => unknown.Requirements.Length)
            .ThenByDescending(unknown => unknown.Waiting).ThenBy(unknown => unknown.Path, StringComparer.Ordinal)];

    // The key of a question is the field's path without ids and indexes, such as work.spray.passes. {of} is the work, area, product or person; {item} the entry of a list in it, counted from 1. A field without a question is
    // asked for by its path: a rule set of somebody's own may wait for a field for which nobody has written one.
    private string QuestionFor(string path)
    {
        var keys = Key().Matches(path).Select(match => match.Groups[1].Value).ToList();
        var question = book.Questions.GetValueOrDefault(Key().Replace(path, "")) ?? book.Texts["question"].Replace("{path}", path, StringComparison.Ordinal);
        var of = path.StartsWith("people[crew]", StringComparison.Ordinal) ? book.Texts.GetValueOrDefault("subject-crew", "crew") : keys.FirstOrDefault("");
        return question.Replace("{of}", of, StringComparison.Ordinal)
            .Replace("{item}", keys.Count < 2 ? "" : Counted(keys[^1]), StringComparison.Ordinal);
    }

    private static string Counted(string key) =>
        int.TryParse(key, NumberStyles.None, CultureInfo.InvariantCulture, out var index) ? (index + 1).ToString(CultureInfo.InvariantCulture) : key;

    /// <summary>The worst that breaking a requirement can bring at a stage. Weak sources hold and do not stop, here as in a finding.</summary>
    public static Severity? Worst(IRequirement requirement, Stage stage)
    {
        var spec = requirement.Spec;
        return spec.Tiers.Values.Select(tier => Capped(requirement, tier.NotMet.At(stage), tier.Sources)).Append(Capped(requirement, spec.NotMet.At(stage), [])).Max();
    }

    private static Severity? Capped(IRequirement requirement, Severity? severity, IEnumerable<Source> ofTier) =>
        severity == Severity.StopWork && IsCapped(requirement, ofTier) ? Severity.HoldPoint : severity;

    private static bool IsCapped(IRequirement requirement, IEnumerable<Source> ofTier) =>
        requirement is { MayRestOnPlan: false, Spec: { ImminentSetBy: null } spec }
        && ofTier.Concat(spec.Sources).Concat(spec.Limits.Values.SelectMany(limit => limit.Below.Append(limit)).Select(limit => limit.Source)).All(source => source.IsWeak);

    [GeneratedRegex(@"\[([^\]]*)\]")]
    private static partial Regex Key();
}
