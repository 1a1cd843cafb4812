using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>Requirements that a rule set declares, beside those that have a class.</summary>
public sealed class DeclaredRequirementTests : IDisposable
{
    private static readonly (string Bearer, string Hazard, string Met)[] Bearers =
    [
        ("job", "unrecorded", "site.existing_building || gear.output > grams_per_second(1)"),
        ("area", "isocyanate-in-air", "area.contained && site.occupied"),
        ("product", "wrong-foam", "product.kind == 'closed-cell-spray'"),
        ("person", "skin-and-eye-contact", "person.clothing.full_suit"),
        ("work", "foam-that-burns", "work.primed && area.contained && has(product.kind)"),
        ("spray", "poor-bond", "spray.never_onto_rising_foam || work.primed && has(area.enclosure) && spray.passes.exists(p, p.thickness <= inches(2))"),
        ("fill", "trapped-air", "size(fill.vent_holes.holes) > 0 && work.primed && has(area.enclosure) && has(product.kind)"),
    ];

    private readonly TemporaryFolder _folder = new();

    public DeclaredRequirementTests()
    {
        foreach (var file in Directory.GetFiles(Repository.PathOf("rulesets"), "*.yaml", SearchOption.AllDirectories))
        {
            _folder.Write(Path.GetRelativePath(Repository.PathOf("rulesets"), file), File.ReadAllText(file));
        }
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void Each_kind_of_bearer_is_judged_by_the_rule_engine_as_by_plain_loops_and_alone()
    {
        Declare([.. Bearers.Select(one => ($"tried.{one.Bearer}", one.Bearer, one.Hazard, one.Met, ""))]);
        var book = Book();
        var all = new RuleNetwork(book);
        var judged = new HashSet<(string, Outcome)>();
        for (ulong seed = 1; seed <= 60; seed++)
        {
            var job = Job(seed);
            var found = Lines(all, job);
            Assert.Equal(PlainLoop.Run(all, job).Where(IsTried).Select(PlainLoop.Line).Order(StringComparer.Ordinal), found);
            judged.UnionWith(all.Run(job, CancellationToken.None).Assessments.Where(IsTried).Select(one => (one.Requirement.Spec.Id, one.Verdict!.Outcome)));
            if (seed <= 5)
            {
                var alone = Bearers.SelectMany(one => Lines(new RuleNetwork(book, new HashSet<string> { $"tried.{one.Bearer}" }), job)).Order(StringComparer.Ordinal);
                Assert.Equal(found, alone);
            }
        }

        foreach (var (bearer, _, _) in Bearers)
        {
            Assert.Contains(($"tried.{bearer}", Outcome.Met), judged);
            Assert.Contains(($"tried.{bearer}", Outcome.NotMet), judged);
            Assert.Contains(($"tried.{bearer}", Outcome.Undetermined), judged);
        }
    }

    [Fact]
    public void A_value_against_a_limit_is_reported_with_limit_and_margin()
    {
        Declare(("tried.wide", "area", "isocyanate-in-air", "area.exclusion_distance >= limits.far", "limits: { far: { at-least: { feet: 25 }, source: habit } }"));
        var verdict = Verdict("tried.wide", new WorkArea { Id = "dock", ExclusionDistance = UnitsNet.Length.FromFeet(20) });
        Assert.Equal((Outcome.NotMet, -5.0), (verdict.Outcome, Math.Round(((UnitsNet.Length)verdict.Margin!.Quantity!).Feet, 9)));
        Assert.Equal("far", verdict.Limit!.Name);
        Assert.Equal("exclusion distance", verdict.Words["lacks"].Text);
    }

    [Fact]
    public void A_needed_field_that_is_not_given_leaves_it_undetermined_unless_a_part_is_not_met()
    {
        Declare(("tried.needs", "area", "isocyanate-in-air", "area.contained", "needs: [area.enclosure, area.access]"));
        var verdict = Verdict("tried.needs", new WorkArea { Id = "dock", Contained = true, Enclosure = Enclosure.Roof });
        Assert.Equal(Outcome.Undetermined, verdict.Outcome);
        Assert.Equal(nameof(WorkArea.Access), Assert.Single(verdict.MissingFields).Property);
        Assert.Equal(Outcome.NotMet, Verdict("tried.needs", new WorkArea { Id = "dock", Contained = false }).Outcome);
        Assert.Equal(Outcome.Met, Verdict("tried.needs", new WorkArea { Id = "dock", Contained = true, Enclosure = Enclosure.Roof, Access = new Access() }).Outcome);
    }

    [Fact]
    public void A_sum_without_a_result_is_a_fault_and_no_verdict()
    {
        Declare(("tried.fault", "area", "isocyanate-in-air", "10 / area.people_in_zone > 1", ""));
        var network = new RuleNetwork(Book());
        var job = new JobFacts(PlanWith(new WorkArea { Id = "dock", PeopleInZone = 0 }));
        var assessment = Assert.Single(network.Run(job, CancellationToken.None).Assessments, IsTried);
        Assert.Null(assessment.Verdict);
        Assert.Contains("a division by zero", assessment.Fault, StringComparison.Ordinal);
    }

    [Fact]
    public void A_requirement_with_a_class_and_an_expression_is_refused()
    {
        var file = Path.Combine("general-practice", "vent.yaml");
        _folder.Write(file, File.ReadAllText(Path.Combine(_folder.Path, file)).Replace(
            "vent.air-can-leave:\n", "vent.air-can-leave:\n  bearer: fill\n  hazard: trapped-air\n  met: \"has(fill.vent_holes)\"\n", StringComparison.Ordinal)
            .Replace("\"{value} openings besides the fill hole in {compartment}; at least {limit} needed\"", "\"lacking: {lacks}\"", StringComparison.Ordinal));
        var error = Assert.Throws<RuleSetMismatchException>(() => new RuleNetwork(Book()));
        Assert.Contains("both a class and a rule set", error.Message, StringComparison.Ordinal);
        Assert.Contains("vent.air-can-leave (general-practice/vent.yaml)", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_requirement_that_no_hazard_could_ever_ask_is_refused()
    {
        Declare(("tried.never", "person", "trapped-air", "person.seal_clear", ""));
        var error = Assert.Throws<RuleSetMismatchException>(() => new RuleNetwork(Book()));
        Assert.Contains("general-practice/tried.yaml(", error.Message, StringComparison.Ordinal);
        Assert.Contains("trapped-air, which falls on no person", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_service_hears_of_it_whichever_thread_has_found_it()
    {
        Declare(("tried.never", "person", "trapped-air", "person.seal_clear", ""));
        var error = Assert.Throws<RuleSetMismatchException>(new CheckEngine(Library()).WarmUp);
        Assert.Contains("trapped-air, which falls on no person", error.Message, StringComparison.Ordinal);
    }

    private static bool IsTried(Assessment assessment) => assessment.Requirement.Spec.Topic == "tried";

    private static List<string> Lines(RuleNetwork network, JobFacts job) =>
        [.. network.Run(job, CancellationToken.None).Assessments.Where(IsTried).Select(PlainLoop.Line).Order(StringComparer.Ordinal)];

    private static JobFacts Job(ulong seed) => new(PlanReader.ReadMessage(RandomPlans.Make(seed, 3), new ReadOptions(default)).Plan!);

    private static Plan PlanWith(WorkArea area) => new()
    {
        Name = "tried",
        Stage = Stage.Plan,
        Areas = [area],
        Products = [new Product { Id = "spray" }],
        Work = [new WorkItem { Id = "wall", Area = "dock", Product = "spray", Spray = new SprayApplication() }],
    };

    private Verdict Verdict(string id, WorkArea area) => Assert.Single(
        new RuleNetwork(Book(), new HashSet<string> { id }).Run(new JobFacts(PlanWith(area)), CancellationToken.None).Assessments).Verdict!;

    private void Declare(params (string Id, string Bearer, string Hazard, string Met, string More)[] rules) =>
        _folder.Write("general-practice/tried.yaml", "sources: { habit: { cite: Practice, status: common-practice } }\n" + string.Concat(rules.Select(rule => $$"""
            {{rule.Id}}:
              must: It must.
              bearer: {{rule.Bearer}}
              hazard: {{rule.Hazard}}
              met: "{{rule.Met}}"
              not-met: { quote: hold, plan: hold, pre-start: hold, close-out: hold }
              missing: { quote: hold, plan: hold, pre-start: hold, close-out: hold }
              release: [owner]
              sources: [habit]
              says: "lacking: {lacks}"
              remedy: Do it.
              caution: It hurts.
              example: A hall.
              {{rule.More}}

            """)));

    private RuleBook Book() => Library().Everything();

    private RuleLibrary Library()
    {
        var library = RuleLibrary.Load(_folder.Path, out var violations, translations: false);
        Assert.True(library is not null, string.Join(Environment.NewLine, violations));
        return library;
    }
}
