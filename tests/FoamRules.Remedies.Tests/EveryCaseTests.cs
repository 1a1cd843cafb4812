using FoamRules.Model;
using FoamRules.Testing;

namespace FoamRules.Remedies.Tests;

/// <summary>
/// The cases of a requirement that are not met: what is offered clears it, changes only choices and brings nothing as bad. All of them where EVERY_CASE is set; else
/// the first of each kind, and all of a requirement that has a remedy for a later one.
/// </summary>
public sealed class EveryCaseTests(ITestOutputHelper output)
{
    // What a remedy was found for when this was written. A change that loses one is seen here.
    private static readonly string[] HaveOne =
    [
        "air.building-system-off-and-sealed", "air.engine-exhaust-kept-out", "air.exclusion-zone-set", "air.exhaust-sufficient",
        "air.flow-path-sound", "air.occupants-return-long-enough", "air.trades-reentry-long-enough", "air.ventilation-goes-on", "body.ears-covered",
        "body.eyes-covered", "body.eyewash-in-reach", "body.no-bare-skin", "body.respirator-protects-enough", "fill.depth-per-pour-within-limit",
        "fill.output-fits-test-shots", "fill.shot-does-not-overfill", "fill.shot-ends-before-gel", "fill.shot-fills-cavity", "fill.trimmed-after-set",
        "fill.wait-covers-full-rise", "fire.clear-of-flues", "fire.clear-of-luminaires", "fire.covered-in-time", "fire.extinguisher-at-hand",
        "fire.hot-work-clear", "fire.last-heat-check", "fire.no-welding-on-filled-section", "fire.separated-from-interior", "gear.hose-reaches",
        "gear.no-long-nozzle-extension", "height.access-checked", "height.fall-protection", "pass.daily-build-within-limit", "pass.heat-can-leave",
        "pass.hot-pipe-in-foam", "pass.sum-gives-thickness", "pass.thickness-not-too-thin", "pass.thickness-within-limit", "pass.wait-long-enough",
        "product.suits-substrate", "site.heat-without-flame", "site.wind-below-limit", "vent.air-can-leave", "waste.nothing-to-drain",
    ];

    private static readonly string[] Later = ["fire.hot-work-clear", "product.suits-substrate"];

    [Fact]
    public void What_is_offered_for_a_case_clears_it_changes_only_choices_and_brings_nothing_as_bad()
    {
        var cases = CaseFiles.Read().SelectMany(Looked).ToList();
        var (wrong, cured) = (new List<string>(), new List<Case>());
        foreach (var one in cases)
        {
            // A comment before the brace makes it YAML, which JSON is too.
            var plan = Remedied.Checked("# a case\n" + one.PlanJson);
            if (plan.For(one.Requirement, one.SubjectId) is not { } remedy)
            {
                continue;
            }

            cured.Add(one);
            wrong.AddRange(plan.NoChoice(remedy.Changes).Select(path => $"{one}: changes {path}, which is no choice"));
            var before = plan.Report.Findings.ToDictionary(finding => (finding.Requirement, finding.Subject), finding => finding.Severity);
            var again = Remedied.Check(plan.With(remedy.Changes));
            if (again.Judgements.Single(judgement => judgement.Requirement == one.Requirement && judgement.Subject == remedy.Subject).Outcome != Outcome.Met)
            {
                wrong.Add($"{one}: {string.Join("; ", remedy.Changes.Select(change => $"{change.Path} = {change.Write}"))} does not clear it");
            }

            wrong.AddRange(again.Findings.Where(finding => finding.Severity >= one.Severity && (!before.TryGetValue((finding.Requirement, finding.Subject), out var was) || was < finding.Severity))
                .Select(finding => $"{one}: brings {finding.Requirement} ({finding.Severity})"));
        }

        var ids = cured.Select(one => one.Requirement).Distinct().Order(StringComparer.Ordinal).ToList();
        output.WriteLine($"{cured.Count} of {cases.Count} cases that are not met have a remedy, of {ids.Count} of {cases.Select(one => one.Requirement).Distinct().Count()} requirements:");
        foreach (var group in cured.GroupBy(one => one.Requirement))
        {
            output.WriteLine($"  {group.Key}: {group.Count()} of {cases.Count(one => one.Requirement == group.Key)}");
        }

        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
        Assert.Empty(HaveOne.Except(ids));
    }

    private static IEnumerable<Case> Looked(CaseFile file)
    {
        var all = file.Cases.Where(one => one is { Outcome: Outcome.NotMet, Severity: >= Severity.Caution, Covers: "not-met" or "outside" });
        return CaseFile.Every ? all : Later.Contains(file.Requirement) ? all : all.GroupBy(one => one.Covers).Select(kind => kind.First());
    }
}
