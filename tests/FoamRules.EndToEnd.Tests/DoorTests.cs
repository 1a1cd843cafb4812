using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The example plans through every door give the same report.</summary>
public sealed class DoorTests(RunningServer server) : IClassFixture<RunningServer>
{
    public static TheoryData<string> Plans { get; } = [.. Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(file => Path.GetFileName(file)!)];

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task The_command_line_gives_the_engine_s_report(string plan)
    {
        var ran = await Programs.FoamRules("check", PathOf(plan), "--format", "json");
        Assert.Equal(Expected(plan), JsonParser.Default.Parse<Report>(ran.Output));
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task The_command_line_against_a_server_gives_the_engine_s_report(string plan)
    {
        var ran = await Programs.FoamRules("check", PathOf(plan), "--format", "json", "--server", server.Address);
        Assert.True(ran.Errors.Length == 0, ran.Errors);
        Assert.Equal(Expected(plan), JsonParser.Default.Parse<Report>(ran.Output));
    }

    [Fact]
    public async Task A_batch_against_a_server_gives_the_same_lines_as_without_one_and_a_bad_plan_does_not_end_it()
    {
        using var files = new TemporaryFolder();
        string[] plans = [.. Plans.Select(plan => PathOf(plan.Data)), files.Write("bad.yaml", "name: x"), .. Plans.Select(plan => PathOf(plan.Data))];
        var without = await Programs.FoamRules(["check", "--format", "jsonl", .. plans]);
        var with = await Programs.FoamRules(["check", "--format", "jsonl", "--server", server.Address, .. plans]);
        Assert.Equal((2, 2), (without.Code, with.Code));
        Assert.Equal(without.Errors, with.Errors);
        Assert.Equal(without.Output.Split('\n').Select(Line), with.Output.Split('\n').Select(Line));

        static Report? Line(string line) => line.Length == 0 ? null : JsonParser.Default.Parse<Report>(line);
    }

    // Nothing listens on port 1.
    [Theory]
    [InlineData("en", "the service cannot be reached")]
    [InlineData("es", "no se puede llegar al servicio")]
    [InlineData("fr", "le service n'est pas joignable")]
    public async Task That_no_service_is_there_is_said_in_the_report_s_language(string language, string said)
    {
        var ran = await Programs.FoamRules("check", "--server", "http://127.0.0.1:1", "--language", language, PathOf("cold-store-dock.yaml"));
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains($"cold-store-dock.yaml: {said}", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_rule_set_that_a_service_does_not_know_is_said_of_each_plan_of_a_batch()
    {
        var ran = await Programs.FoamRules("check", "--server", server.Address, "--rule-set", "nowhere", "--format", "jsonl", PathOf("cold-store-dock.yaml"), PathOf("cold-store-dock-quote.yaml"));
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains("cold-store-dock.yaml: the service answered InvalidArgument", ran.Errors, StringComparison.Ordinal);
        Assert.Contains("cold-store-dock-quote.yaml: the service answered InvalidArgument", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_service_that_is_not_there_is_said_of_each_plan_of_a_batch()
    {
        var ran = await Programs.FoamRules("check", "--server", "http://127.0.0.1:1", "--format", "jsonl", PathOf("cold-store-dock.yaml"), PathOf("cold-store-dock-quote.yaml"));
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Equal(2, ran.Errors.Split('\n', StringSplitOptions.RemoveEmptyEntries).Count(line => line.Contains("cold-store-dock", StringComparison.Ordinal)));
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task Node_gets_the_engine_s_report(string plan)
    {
        var folder = Repository.PathOf("examples", "node");
        Assert.SkipUnless(Programs.Has("node") && Directory.Exists(Path.Combine(folder, "node_modules")), "needs Node and `npm ci` in examples/node");
        using var files = new TemporaryFolder();
        var ran = await Programs.Run("node", ["check.mjs", files.Write("plan.json", Json(plan)), server.Authority], folder: folder);
        Assert.True(ran.Code == 0, ran.Errors);
        Assert.Equal(Expected(plan), Parse(ran.Output));
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task Python_gets_the_engine_s_report(string plan)
    {
        // The distribution's Python has the gRPC package; another one first on the path may not.
        const string python = "/usr/bin/python3";
        Assert.SkipUnless(File.Exists(python) && Programs.Has("protoc") && (await Programs.Run(python, ["-c", "import grpc, google.protobuf"])).Code == 0, "needs python3-grpcio, python3-protobuf and protobuf-compiler");
        using var files = new TemporaryFolder();
        var protos = Repository.PathOf("protos");
        var all = Directory.GetFiles(protos, "*.proto", SearchOption.AllDirectories);
        var generated = await Programs.Run("protoc", ["-I", protos, $"--python_out={files.Path}", .. all]);
        Assert.True(generated.Code == 0, generated.Errors);
        var ran = await Programs.Run(python, [Repository.PathOf("examples", "python", "check.py"), files.Write("plan.json", Json(plan)), server.Authority], environment: ("PYTHONPATH", files.Path));
        Assert.True(ran.Code == 0, ran.Errors);
        Assert.Equal(Expected(plan), Parse(ran.Output));
    }

    [Theory]
    [MemberData(nameof(Plans))]
    public async Task Curl_and_fetch_get_the_engine_s_report_over_http(string plan)
    {
        Assert.SkipUnless(Programs.Has("curl") && Programs.Has("node"), "needs curl and Node");
        var curl = await Programs.Run("sh", [Repository.PathOf("examples", "http", "check.sh"), PathOf(plan), server.WebAddress]);
        Assert.True(curl.Code == 0, curl.Errors + curl.Output);
        Assert.Equal(Expected(plan), JsonParser.Default.Parse<CheckPlanResponse>(curl.Output).Report);
        var fetch = await Programs.Run("node", [Repository.PathOf("examples", "http", "check.mjs"), PathOf(plan), server.WebAddress]);
        Assert.True(fetch.Code == 0, fetch.Errors);
        Assert.Equal(Expected(plan), JsonParser.Default.Parse<Report>(fetch.Output));
    }

    [Fact]
    public async Task A_bad_plan_is_told_by_curl_and_fetch_field_by_field()
    {
        Assert.SkipUnless(Programs.Has("curl") && Programs.Has("node"), "needs curl and Node");
        using var files = new TemporaryFolder();
        var bad = files.Write("bad.json", """{ "name": "x", "wrok": [] }""");
        var curl = await Programs.Run("sh", [Repository.PathOf("examples", "http", "check.sh"), bad, server.WebAddress]);
        Assert.NotEqual(0, curl.Code);
        Assert.Contains("did you mean work?", curl.Output, StringComparison.Ordinal);
        var fetch = await Programs.Run("node", [Repository.PathOf("examples", "http", "check.mjs"), bad, server.WebAddress]);
        Assert.Equal(2, fetch.Code);
        Assert.Contains("wrok: found an unknown field", fetch.Errors, StringComparison.Ordinal);
    }

    private static string PathOf(string plan) => Repository.PathOf("shared", "plans", plan);

    private static PlanRead Read(string plan) => PlanReader.ReadText(File.ReadAllText(PathOf(plan)), plan, new ReadOptions(default));

    private static string Json(string plan) => new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true)).Format(Read(plan).Message);

    private static Report Expected(string plan)
    {
        var read = Read(plan);
        return ReportMapper.ToMessage(Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest), TestContext.Current.CancellationToken).Report!);
    }

    private static Report Parse(string json)
    {
        var report = new Report();
        Assert.Empty(MessageReader.Read(DataText.Read(json, null).Root!, report, null));
        return report;
    }
}
