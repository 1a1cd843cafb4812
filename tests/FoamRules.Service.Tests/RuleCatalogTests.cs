using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Catalogue;
using FoamRules.RuleSets;
using FoamRules.Testing;
using Google.Rpc;
using Grpc.Core;
using RuleSetChoice = FoamRules.Contracts.V1.RuleSetChoice;
using RuleSetFile = FoamRules.Contracts.V1.RuleSetFile;

namespace FoamRules.Service.Tests;

/// <summary>The catalogue over a real connection.</summary>
public sealed class RuleCatalogTests(RunningService service) : IClassFixture<RunningService>
{
    private const string General = RuleLibrary.GeneralPractice;
    private readonly RuleCatalogService.RuleCatalogServiceClient _client = new(service.Channel);

    [Fact]
    public async Task Requirements_are_listed_all_or_by_topic_and_each_can_be_had_in_full()
    {
        var all = await _client.ListRequirementsAsync(new ListRequirementsRequest());
        var book = new RuleCatalogue(Repository.Engine).Book([], out _)!;
        Assert.Equal(book.Requirements.Keys, all.Requirements.Select(one => one.Id));
        Assert.Equal(book.Layers.Select(layer => layer.Digest), all.RuleSets.Select(set => set.Digest));
        foreach (var topic in all.Requirements.GroupBy(one => one.Topic))
        {
            var listed = await _client.ListRequirementsAsync(new ListRequirementsRequest { Topic = topic.Key });
            Assert.Equal(topic, listed.Requirements);
        }

        foreach (var one in all.Requirements)
        {
            var answer = await _client.GetRequirementAsync(new GetRequirementRequest { Id = one.Id, Units = DisplayUnits.Us });
            var told = RuleCatalogue.Requirement(book, one.Id, Model.DisplayUnits.Us)!;
            Assert.Equal(ReportMapper.MessageOf<Requirement>(told), answer.Requirement);
            Assert.Equal(told.Limits.Select(limit => (limit.Says, limit.Layer, limit.Below.Length)), answer.Requirement.Limits.Select(limit => (limit.Says, limit.Layer, limit.Below.Count)));
        }
    }

    [Fact]
    public async Task Rule_sets_are_listed_from_the_lowest_and_each_can_be_had_in_full()
    {
        var list = await _client.ListRuleSetsAsync(new ListRuleSetsRequest());
        Assert.Null(list.Refused);
        Assert.Equal(General, list.RuleSets[0].Id);
        Assert.Equal(Repository.Engine.Library.RuleSets.Keys, list.RuleSets.Select(set => set.Id).Order(StringComparer.Ordinal));
        foreach (var summary in list.RuleSets)
        {
            var full = (await _client.GetRuleSetAsync(new GetRuleSetRequest { Id = summary.Id })).RuleSet;
            var set = Repository.Engine.Library.RuleSets[summary.Id];
            Assert.Equal(summary, full.Summary);
            Assert.Equal((set.Title, set.Digest, (int)set.Level), (summary.Title, summary.Digest, (int)summary.Level));
            Assert.Equal(set.Requirements.Keys, full.Requirements.Select(one => one.Id));
            Assert.Equal(summary.Limits, full.Parameters.Count + full.Requirements.Sum(one => one.Limits.Count));
            Assert.Equal(set.Sources.Count, full.Sources.Count);
        }
    }

    [Fact]
    public async Task What_is_not_there_is_not_found()
    {
        Assert.Equal("no.such-requirement", await NotFound(async () => await _client.GetRequirementAsync(new GetRequirementRequest { Id = "no.such-requirement" })));
        Assert.Equal("nowhere", await NotFound(async () => await _client.GetRuleSetAsync(new GetRuleSetRequest { Id = "nowhere" })));
    }

    [Fact]
    public async Task Requests_that_cannot_be_used_name_every_field()
    {
        await Refused(["topic"], async () => await _client.ListRequirementsAsync(new ListRequirementsRequest { Topic = "weather" }));
        await Refused(["rule_sets", "rule_sets"], async () => await _client.ListRequirementsAsync(new ListRequirementsRequest { RuleSets = { General, "nowhere", "elsewhere" } }));
        await Refused(["rule_sets"], async () => await _client.ListRequirementsAsync(new ListRequirementsRequest { RuleSets = { Enumerable.Repeat(General, 21) } }));
        await Refused(["id"], async () => await _client.GetRequirementAsync(new GetRequirementRequest()));
        await Refused(["id"], async () => await _client.GetRuleSetAsync(new GetRuleSetRequest()));
        await Refused(["after", "before"], async () => await _client.CompareRuleSetsAsync(new CompareRuleSetsRequest()));
        await Refused(["after.rule_sets"], async () => await _client.CompareRuleSetsAsync(new CompareRuleSetsRequest { Before = Choice(General), After = new RuleSetChoice() }));
        await Refused(["before.rule_sets"], async () => await _client.CompareRuleSetsAsync(new CompareRuleSetsRequest { Before = Choice("nowhere"), After = Choice(General) }));
        await Refused(["plans"], async () => await _client.CompareRuleSetsAsync(new CompareRuleSetsRequest { Before = Choice(General), After = Choice(General), Plans = { Enumerable.Repeat(Example("cold-store-dock"), 101) } }));
        await Refused(["plans[1].name", "plans[1].stage", "plans[1].work"], async () => await _client.CompareRuleSetsAsync(
            new CompareRuleSetsRequest { Before = Choice(General), After = Choice(General), Plans = { Example("cold-store-dock"), new Plan() } }));
        await Refused(["files", "id"], async () => await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest()));
        await Refused(["id"], async () => await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "../up", Files = { File("rule-set.yaml", "") } }));
        await Refused(["files"], async () => await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "my", Files = { Enumerable.Range(0, 201).Select(i => File(string.Create(CultureInfo.InvariantCulture, $"t{i}.yaml"), "")) } }));
        await Refused(["files[0].content"], async () => await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "my", Files = { File("vent.yaml", new string('#', 200_001)) } }));
        await Refused(["files[0].name", "files[2].name"], async () => await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "my", Files = { File("../vent.yaml", ""), File("vent.yaml", ""), File("vent.yaml", "") } }));
        await Refused(["files[0].name", "files[1].name", "files[2].name"], async () => await _client.ValidateRuleSetAsync(
            new ValidateRuleSetRequest { Id = "my", Files = { File("languages/../vent.yaml", ""), File("languages/vent.yaml", ""), File("other/es/vent.yaml", "") } }));
    }

    [Fact]
    public async Task Two_choices_are_compared_as_the_engine_compares_them_plans_in_their_order()
    {
        var catalogue = new RuleCatalogue(Repository.Engine);
        var before = catalogue.Book([General], out _)!;
        var plans = new[] { "cold-store-dock-broken", "cold-store-dock" };
        foreach (var id in Repository.Engine.Library.RuleSets.Keys)
        {
            var answer = await _client.CompareRuleSetsAsync(new CompareRuleSetsRequest { Before = Choice(General), After = Choice(id), Units = DisplayUnits.Us, Plans = { plans.Select(Example) } });
            var after = catalogue.Book([id], out _)!;
            Assert.Equal(RuleCatalogue.Compare(before, after, Model.DisplayUnits.Us).Select(ReportMapper.MessageOf<FoamRules.Contracts.V1.Difference>), answer.Differences);
            var reads = plans.Select(name => PlanReader.ReadMessage(Example(name), new ReadOptions(default)).Plan!);
            Assert.Equal(reads.Select(plan => ReportMapper.MessageOf<FoamRules.Contracts.V1.PlanComparison>(catalogue.Compare(plan, before, after, Model.DisplayUnits.Us))), answer.Plans);
            Assert.Equal(after.Layers.Select(layer => layer.Id), answer.After.Select(set => set.Id));
            Assert.Equal(id == General, answer.Differences.Count == 0);
        }
    }

    [Fact]
    public async Task A_draft_is_answered_with_its_errors_or_with_what_it_changes_and_is_not_kept()
    {
        var head = File("rule-set.yaml", "title: Mine\nversion: 1.0.0\nlevel: company\nabove: general-practice\n");
        var wrong = await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "my", Files = { head, File("vent.yaml", "vent.air-can-leave:\n  limits:\n    openings: { at-most: { count: 1 }, source: nobody }\n") } });
        var violation = Assert.Single(wrong.Violations);
        Assert.Equal(("my/vent.yaml", 3), (violation.File, violation.Line));
        Assert.True(violation.Column > 1);
        Assert.Null(wrong.RuleSet);
        var good = await _client.ValidateRuleSetAsync(new ValidateRuleSetRequest { Id = "my", Files = { head, File("vent.yaml", "vent.air-can-leave:\n  not-met: { quote: stop }\n") } });
        Assert.Empty(good.Violations);
        Assert.Equal(("vent.air-can-leave", "hold", "stop"), (good.Differences.Single().Requirement, good.Differences.Single().Before, good.Differences.Single().After));
        Assert.Equal("Mine", good.RuleSet.Title);
        Assert.DoesNotContain((await _client.ListRuleSetsAsync(new ListRuleSetsRequest())).RuleSets, set => set.Id == "my");
    }

    private static RuleSetChoice Choice(string id) => new() { RuleSets = { id } };

    private static RuleSetFile File(string name, string content) => new() { Name = name, Content = content };

    private static Plan Example(string name) =>
        PlanReader.ReadText(System.IO.File.ReadAllText(Repository.PathOf("shared", "plans", $"{name}.yaml")), null, new ReadOptions(default)).Message!;

    private static async Task<string> NotFound(Func<Task> call)
    {
        var error = await Assert.ThrowsAsync<RpcException>(call);
        Assert.Equal(StatusCode.NotFound, error.StatusCode);
        return error.GetRpcStatus()!.GetDetail<ResourceInfo>()!.ResourceName;
    }

    private static async Task Refused(string[] fields, Func<Task> call)
    {
        var error = await Assert.ThrowsAsync<RpcException>(call);
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Equal(fields, error.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations.Select(violation => violation.Field).Order(StringComparer.Ordinal));
    }
}
