using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Service.Tests;

/// <summary>Reports by SARIF 2.1.0, held against the published schema.</summary>
public sealed class SarifTests(RunningWeb web) : IClassFixture<RunningWeb>
{
    private static readonly Lazy<SchemaFile> Schema = new(() => SchemaFile.ReadFile(Path.Combine(AppContext.BaseDirectory, "sarif-2.1.0.json")));

    public static TheoryData<string> Plans { get; } = [.. Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(file => Path.GetFileName(file)!)];

    [Theory]
    [MemberData(nameof(Plans))]
    public void A_report_fits_the_schema_and_every_judgement_is_a_result_of_its_kind(string plan)
    {
        var (report, text) = Judged(plan);
        var log = SarifLog.Of([SarifLog.Run(report, $"plans/{plan}", text, SarifRules.Of(Repository.Engine, report))]);
        Assert.Empty(Schema.Value.Check(log.ToJsonString()));
        var run = log["runs"]![0]!;
        var results = run["results"]!.AsArray();
        Assert.Equal(report.Judgements.Length, results.Count);
        string Kind(Outcome outcome) => outcome switch { Outcome.Met => "pass", Outcome.NotMet => "fail", Outcome.Undetermined => "open", Outcome.NotApplicable => "notApplicable", _ => "review" };
        Assert.Equal(report.Judgements.Select(one => (one.Requirement, Kind(one.Outcome))), results.Select(result => ((string)result!["ruleId"]!, (string)result["kind"]!)));
        // By the standard only a fail has a level.
        Assert.All(results, result => Assert.True((string)result!["kind"]! == "fail" || (string)result["level"]! == "none"));
        Assert.Equal(report.Judgements.Count(one => one is { Outcome: Outcome.NotMet, Severity: Severity.StopWork or Severity.HoldPoint }), results.Count(result => (string)result!["level"]! == "error"));
        var rules = run["tool"]!["driver"]!["rules"]!.AsArray();
        Assert.All(results, result => Assert.Equal((string)result!["ruleId"]!, (string)rules[(int)result["ruleIndex"]!]!["id"]!));
        Assert.All(rules, rule =>
        {
            Assert.NotEmpty((string)rule!["shortDescription"]!["text"]!);
            Assert.NotEmpty(rule["properties"]!["sources"]!.AsArray());
        });
    }

    [Fact]
    public void A_finding_stands_at_the_line_of_what_it_rests_on()
    {
        var (report, text) = Judged("cold-store-dock-broken.yaml");
        var run = SarifLog.Run(report, "my plans/broken.yaml", text, _ => null);
        var thick = run["results"]!.AsArray().Single(result => (string)result!["ruleId"]! == "pass.thickness-within-limit" && (string)result["kind"]! == "fail")!["locations"]![0]!;
        Assert.Equal("my%20plans/broken.yaml", (string)thick["physicalLocation"]!["artifactLocation"]!["uri"]!);
        var line = text.Split('\n')[(int)thick["physicalLocation"]!["region"]!["startLine"]! - 1];
        Assert.Contains("inches: 4", line, StringComparison.Ordinal);
        Assert.Equal("work[office-wall]", (string)thick["logicalLocations"]![0]!["fullyQualifiedName"]!);
    }

    [Fact]
    public async Task It_is_answered_over_http_where_the_caller_accepts_it()
    {
        var (report, text) = Judged("cold-store-dock-broken.yaml");
        using var request = new HttpRequestMessage(HttpMethod.Post, "/v1/plans:check") { Content = new StringContent(text) };
        request.Content.Headers.ContentType = new("application/yaml");
        request.Headers.Add("Accept", SarifLog.MediaType);
        using var response = await web.Client.SendAsync(request);
        Assert.Equal(SarifLog.MediaType, response.Content.Headers.ContentType?.MediaType);
        var log = await response.Content.ReadAsStringAsync();
        Assert.Empty(Schema.Value.Check(log));
        Assert.Equal(report.Judgements.Length, JsonNode.Parse(log)!["runs"]![0]!["results"]!.AsArray().Count);
    }

    private static (Report Report, string Text) Judged(string plan)
    {
        var text = File.ReadAllText(Repository.PathOf("shared", "plans", plan));
        var read = PlanReader.ReadText(text, plan, new ReadOptions(default));
        return (Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!, text);
    }
}
