using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>
/// Every case's plan checked once, for all tests of this process that look at all of them. What nobody looks at is let go: the whole
/// reports of thousands of cases take more than a gigabyte.
/// </summary>
internal static class CheckedCases
{
    private static readonly ConcurrentDictionary<Case, Lazy<CheckedCase>> All = new(ReferenceEqualityComparer.Instance);

    /// <summary>What came of one case.</summary>
    public static CheckedCase Of(Case one) => All.GetOrAdd(one, static one => new Lazy<CheckedCase>(() =>
    {
        var report = CaseTests.Check(one);
        return new CheckedCase(
            report with
            {
                Judgements = [.. report.Judgements.Where(judgement => judgement.Requirement == one.Requirement)],
                Findings = [.. report.Findings.Where(finding => finding.Requirement == one.Requirement).Select(finding => finding with { Steps = [] })],
                Hazards = [],
                Numbers = [],
                Schedule = [],
                Unknowns = [],
                PriceLines = [],
            },
            Asked.Of(report));
    })).Value;
}

/// <summary>What came of one case.</summary>
/// <param name="Report">The report, with what is said of the case's own requirement only.</param>
/// <param name="Asked">What the whole report asks for.</param>
internal sealed record CheckedCase(Report Report, Asked Asked);

/// <summary>What a report asks for.</summary>
/// <param name="IsRanked">True where the worst that could come out comes first, then what most requirements wait for.</param>
/// <param name="Patterns">The fields for which something waits, without ids and indexes.</param>
internal sealed partial record Asked(bool IsRanked, IReadOnlyList<string> Patterns)
{
    /// <summary>The question for each field that a report so far has asked for.</summary>
    public static ConcurrentDictionary<string, string> Questions { get; } = new(StringComparer.Ordinal);

    public static Asked Of(Report report)
    {
        foreach (var unknown in report.Unknowns)
        {
            Questions.TryAdd(unknown.Path, unknown.Question);
        }

        var ranks = report.Unknowns.Select(unknown => (-(int)(unknown.Worst ?? 0), -unknown.Requirements.Length)).ToList();
        return new Asked(
            ranks.Order().SequenceEqual(ranks),
            [.. report.Unknowns.Select(unknown => unknown.Path).Concat(report.PriceLines.SelectMany(line => line.Missing)).Select(path => string.Intern(Key().Replace(path, ""))).Distinct()]);
    }

    [GeneratedRegex(@"\[[^\]]*\]")]
    private static partial Regex Key();
}
