using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Rules.Catalogue;

/// <summary>Which findings appear, vanish or change between two reports on the same plan.</summary>
public static class FindingComparison
{
    /// <summary>The changes, the worst first.</summary>
    public static ImmutableArray<FindingChange> Of(Report before, Report after) => Of(before.Findings, after.Findings);

    /// <summary>The changes, the worst first.</summary>
    public static ImmutableArray<FindingChange> Of(IEnumerable<Finding> before, IEnumerable<Finding> after)
    {
        var (was, will) = (ByWhatAndWhere(before), ByWhatAndWhere(after));
        var changes = from key in was.Keys.Union(will.Keys)
                      let old = was.GetValueOrDefault(key)
                      let now = will.GetValueOrDefault(key)
                      where !SaysTheSame(old, now)
                      orderby Worst(old, now) descending, key.Requirement, key.Subject.Id
                      select new FindingChange(key.Requirement, key.Subject, KindOf(old, now), old, now);
        return [.. changes];
    }

    private static Dictionary<(string Requirement, Subject Subject), FindingState> ByWhatAndWhere(IEnumerable<Finding> findings) =>
        findings.ToDictionary(
            finding => (finding.Requirement, finding.Subject),
            finding => new FindingState(finding.Outcome, finding.Severity, finding.Found, finding.Limit));

    // The same limit by another layer's word is no change for the plan.
    private static bool SaysTheSame(FindingState? before, FindingState? after) =>
        (before, after) is ({ } old, { } now) && old with { Limit = null } == now with { Limit = null } && Equals(old.Limit?.Value, now.Limit?.Value);

    private static Severity Worst(FindingState? before, FindingState? after) => (Severity)Math.Max((int)(before?.Severity ?? 0), (int)(after?.Severity ?? 0));

    private static DifferenceKind KindOf(FindingState? before, FindingState? after) => (before?.Severity, after?.Severity) switch
    {
        (null, _) => DifferenceKind.Appears,
        (_, null) => DifferenceKind.Vanishes,
        ({ } old, { } now) when now > old => DifferenceKind.Tightens,
        ({ } old, { } now) when now < old => DifferenceKind.Loosens,
        _ => DifferenceKind.Changes,
    };
}
