using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>
/// NRules can let a rule fire because another one matched, with no error. These tests would see it: all rules together
/// against each rule alone, and against plain loops over the same predicates. The plans are random but the same on every run.
/// </summary>
public sealed class TwoEnginesTests
{
    private static readonly RuleNetwork All = new(Repository.Book("US"));

    [Fact]
    public void The_rule_engine_finds_what_plain_loops_find_on_random_plans()
    {
        for (ulong seed = 1; seed <= 120; seed++)
        {
            var job = Job(seed);
            Assert.Equal(Lines(PlainLoop.Run(All, job)), Lines(All.Run(job, CancellationToken.None).Assessments));
        }
    }

    [Fact]
    public void Each_requirement_alone_finds_what_it_finds_among_all()
    {
        var jobs = Enumerable.Range(1, 12).Select(seed => Job((ulong)seed)).ToList();
        var together = jobs.Select(job => All.Run(job, CancellationToken.None).Assessments.ToLookup(assessment => assessment.Requirement.Spec.Id)).ToList();
        var judged = 0;
        foreach (var id in All.Requirements.Select(requirement => requirement.Spec.Id))
        {
            var alone = new RuleNetwork(All.Book, new HashSet<string> { id });
            for (var i = 0; i < jobs.Count; i++)
            {
                var found = Lines(alone.Run(jobs[i], CancellationToken.None).Assessments);
                Assert.Equal(Lines(together[i][id]), found);
                judged += found.Count;
            }
        }

        Assert.True(judged > All.Requirements.Length, "the random plans make the requirements judge");
    }

    [Fact]
    public void No_requirement_fails_on_any_random_plan()
    {
        for (ulong seed = 1; seed <= 120; seed++)
        {
            var faults = All.Run(Job(seed), CancellationToken.None).Assessments.Where(assessment => assessment.Fault is not null).Select(PlainLoop.Line).ToList();
            Assert.True(faults.Count == 0, string.Join(Environment.NewLine, faults));
        }
    }

    [Fact]
    public void Every_report_on_random_plans_has_its_words()
    {
        for (ulong seed = 1; seed <= 80; seed++)
        {
            var read = PlanReader.ReadMessage(RandomPlans.Make(seed, 2), new ReadOptions(default));
            var report = Repository.Engine.Check(read.Plan!, new CheckOptions()).Report!;
            Assert.True(report.Complete, string.Join(Environment.NewLine, report.Findings.Where(finding => finding.Outcome == Model.Outcome.Faulted).Select(finding => finding.Found)));
            Assert.DoesNotContain(report.Findings, finding => (finding.Found + finding.Remedy + finding.Caution).Contains('{', StringComparison.Ordinal));
        }
    }

    private static JobFacts Job(ulong seed)
    {
        var read = PlanReader.ReadMessage(RandomPlans.Make(seed, 1 + (int)(seed % 4)), new ReadOptions(default));
        Assert.True(read.Plan is not null, string.Join(Environment.NewLine, read.Violations));
        return new JobFacts(read.Plan);
    }

    private static List<string> Lines(IEnumerable<Assessment> assessments) => [.. assessments.Select(PlainLoop.Line).Order(StringComparer.Ordinal)];
}
