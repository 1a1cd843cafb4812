using FoamRules.Contracts.V1;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Schemas;
using FoamRules.Testing;
using Google.Protobuf;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The commands for those who write rule sets, as they call them.</summary>
public sealed class RuleSetCommandTests : IDisposable
{
    private const string General = RuleLibrary.GeneralPractice;
    private readonly TemporaryFolder _files = new();

    public void Dispose() => _files.Dispose();

    [Fact]
    public async Task A_new_rule_set_loads_as_it_is_and_with_its_example_and_is_never_written_over()
    {
        Assert.Equal(0, (await Programs.FoamRules("rule-set", "new", "my-company", "--above", General, "--in", _files.Path)).Code);
        var folder = Path.Combine(_files.Path, "my-company");
        var check = await Programs.FoamRules("rule-set", "check", folder);
        Assert.Equal((0, ""), (check.Code, check.Errors));
        Assert.Contains("nothing differs", check.Output, StringComparison.Ordinal);

        var topic = Directory.GetFiles(folder).Single(file => Path.GetFileName(file) != "rule-set.yaml");
        var lines = (await File.ReadAllLinesAsync(topic)).ToList();
        var example = lines.FindIndex(line => line.StartsWith("# ", StringComparison.Ordinal) && line.EndsWith(':'));
        await File.WriteAllLinesAsync(topic, [.. lines.Take(example), .. lines.Skip(example).Select(line => line.Length > 2 ? line[2..] : line)]);
        check = await Programs.FoamRules("rule-set", "check", folder);
        Assert.Equal((0, ""), (check.Code, check.Errors));
        Assert.Contains("my-company 0.1.0 loads", check.Output, StringComparison.Ordinal);
        Assert.Contains("1 requirements, 1 limits", check.Output, StringComparison.Ordinal);

        var before = await File.ReadAllTextAsync(topic);
        var again = await Programs.FoamRules("rule-set", "new", "my-company", "--above", General, "--in", _files.Path);
        Assert.Equal(2, again.Code);
        Assert.Contains("nothing was written", again.Errors, StringComparison.Ordinal);
        Assert.Equal(before, await File.ReadAllTextAsync(topic));
        foreach (var file in Directory.GetFiles(folder))
        {
            var schema = SchemaFile.Read(Path.GetFileName(file) == "rule-set.yaml" ? "rule-set" : "rule-set-topic");
            Assert.Empty(schema.CheckYaml(await File.ReadAllTextAsync(file), file));
        }
    }

    [Fact]
    public async Task A_broken_rule_set_is_answered_with_file_line_and_column_all_at_once()
    {
        var head = _files.Write("my-company/rule-set.yaml", "title: Mine\nversion: 1.0.0\nlevel: company\nabove: general-practice\nvresion: 2\n");
        var vent = _files.Write("my-company/vent.yaml", "vent.air-can-leave:\n  not-mat: { plan: stop }\n");
        var ran = await Programs.FoamRules("rule-set", "check", Path.Combine(_files.Path, "my-company"));
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains($"{head}:5:1: ", ran.Errors, StringComparison.Ordinal);
        Assert.Contains($"{vent}:2:3: ", ran.Errors, StringComparison.Ordinal);
        Assert.Contains("did you mean not-met?", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_comparison_comes_as_text_and_as_the_service_s_message()
    {
        _files.Write("my-company/rule-set.yaml", "title: Mine\nversion: 1.0.0\nlevel: company\nabove: general-practice\n");
        _files.Write("my-company/vent.yaml", "vent.air-can-leave:\n  not-met: { quote: stop }\n");
        var shipped = Repository.PathOf("rulesets");
        foreach (var file in Directory.GetFiles(shipped, "*.yaml", SearchOption.AllDirectories))
        {
            _files.Write(Path.GetRelativePath(shipped, file), await File.ReadAllTextAsync(file));
        }

        var plan = Repository.PathOf("shared", "plans", "cold-store-dock-quote.yaml");
        var text = await Programs.FoamRules("rule-set", "compare", General, "my-company", plan, "--rules", _files.Path);
        Assert.Equal((0, ""), (text.Code, text.Errors));
        Assert.Contains("severity not met at quote: hold → stop", text.Output, StringComparison.Ordinal);
        Assert.Contains("Cold-store dock, north side, inquiry", text.Output, StringComparison.Ordinal);
        Assert.All(text.Output.Split('\n'), line => Assert.True(line.Length <= 100, line));
        var json = await Programs.FoamRules("rule-set", "compare", General, $"{General}+my-company", plan, "--rules", _files.Path, "--format", "json");
        var answer = JsonParser.Default.Parse<CompareRuleSetsResponse>(json.Output);
        Assert.Equal(("vent.air-can-leave", DifferenceKind.Tightens), (answer.Differences.Single().Requirement, answer.Differences.Single().Kind));
        Assert.Equal("Cold-store dock, north side, inquiry", answer.Plans.Single().PlanName);
        Assert.Equal(["general-practice", "my-company"], answer.After.Select(set => set.Id));
    }

    [Fact]
    public async Task The_schemas_are_printed_as_they_stand_in_docs()
    {
        foreach (var name in RuleSetSchema.All.Keys.Append("plan"))
        {
            var ran = await Programs.FoamRules("schema", name);
            Assert.Equal((0, await File.ReadAllTextAsync(SchemaFile.PathOf(name))), (ran.Code, ran.Output));
        }
    }

    [Theory]
    [InlineData("rule-set")]
    [InlineData("rule-set", "check", "no-such-folder")]
    [InlineData("rule-set", "compare", "general-practice")]
    [InlineData("rule-set", "compare", "general-practice", "nowhere")]
    [InlineData("rule-set", "compare", "general-practice+", "general-practice")]
    [InlineData("rule-set", "compare", "general-practice", "general-practice", "no-such-plan.yaml")]
    [InlineData("rule-set", "new", "my-company")]
    [InlineData("rule-set", "new", "my-company", "--above", "nowhere")]
    [InlineData("rule-set", "new", "My Company", "--above", "general-practice")]
    [InlineData("rule-set", "new", "../up", "--above", "general-practice")]
    [InlineData("rule-set", "new", "general-practice", "--above", "general-practice")]
    [InlineData("schema")]
    [InlineData("schema", "report")]
    public async Task Arguments_that_cannot_be_used_are_answered_with_2_and_a_reason(params string[] arguments)
    {
        var ran = await Programs.FoamRules(arguments);
        Assert.Equal(2, ran.Code);
        Assert.NotEmpty(ran.Errors);
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
    }
}
