using System.Collections.Concurrent;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.Testing;
using Grpc.Health.V1;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests;

/// <summary>Rule sets that change while the service runs.</summary>
public sealed class HotReloadTests : IAsyncLifetime, ILogEventSink
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);
    private readonly TemporaryFolder _folder = new();
    private readonly ConcurrentQueue<LogEvent> _log = new();
    private WebApplication? _service;
    private GrpcChannel? _channel;

    private RuleCatalogService.RuleCatalogServiceClient Catalog => new(_channel);

    private PlanCheckService.PlanCheckServiceClient Checks => new(_channel);

    private string Head => Path.Combine(_folder.Path, RuleLibrary.GeneralPractice, "rule-set.yaml");

    void ILogEventSink.Emit(LogEvent logEvent) => _log.Enqueue(logEvent);

    public async ValueTask InitializeAsync()
    {
        var shipped = Repository.PathOf("rulesets");
        foreach (var file in Directory.GetFiles(shipped, "*.yaml", SearchOption.AllDirectories))
        {
            _folder.Write(Path.GetRelativePath(shipped, file), await File.ReadAllTextAsync(file));
        }

        _service = ServiceHost.Build(new ServiceSettings { Engine = new CheckEngine(RuleLibrary.Load(_folder.Path, out _)!), RulesFolder = _folder.Path, Log = this });
        await _service.StartAsync();
        _channel = GrpcChannel.ForAddress(_service.Urls.Single());
    }

    public async ValueTask DisposeAsync()
    {
        _channel!.Dispose();
        await _service!.StopAsync();
        await _service.DisposeAsync();
        _folder.Dispose();
    }

    [Fact]
    public async Task A_good_change_is_taken_over_a_broken_one_is_refused_and_told_and_mending_it_clears_that()
    {
        var before = await Check();
        await File.WriteAllTextAsync(Head, WithVersion(await File.ReadAllTextAsync(Head), "99.0.0"));
        await Until(list => General(list).Version == "99.0.0");
        var after = await Check();
        Assert.NotEqual(before.RuleSets[0].Digest, after.RuleSets[0].Digest);
        Assert.Equal("99.0.0", after.RuleSets[0].Version);
        Assert.Equal(before.Judgements, after.Judgements);
        Assert.Contains(_log, entry => entry.RenderMessage(CultureInfo.InvariantCulture).Contains("99.0.0", StringComparison.Ordinal));

        // Two mistakes: both are told, with their places, and the service goes on as it was.
        var good = await File.ReadAllTextAsync(Head);
        await File.WriteAllTextAsync(Head, good + "levle: company\nvresion: 1\n");
        var refused = (await Until(list => list.Refused is not null)).Refused;
        Assert.Equal(["rule-set.levle", "rule-set.vresion"], refused.Violations.Select(violation => violation.Path));
        Assert.All(refused.Violations, violation => Assert.Equal(("general-practice/rule-set.yaml", true), (violation.File, violation.Line > 3)));
        Assert.Equal(after, await Check());
        Assert.Equal(2, _log.Count(entry => entry.Properties.TryGetValue("Violation", out var told) && told.ToString().Contains("unknown name", StringComparison.Ordinal)));
        var health = await new Health.HealthClient(_channel).CheckAsync(new HealthCheckRequest());
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, health.Status);

        await File.WriteAllTextAsync(Head, good);
        await Until(list => list.Refused is null);
        Assert.Equal(after, await Check());
    }

    [Fact]
    public async Task What_reads_well_but_does_not_fit_the_requirements_judged_is_refused()
    {
        var before = await Check();
        Directory.Delete(Path.Combine(_folder.Path, RuleLibrary.GeneralPractice), recursive: true);
        Assert.NotEmpty((await Until(list => list.Refused is not null)).Refused.Violations);
        Assert.Equal(before, await Check());
        var all = (await Catalog.ListRuleSetsAsync(new ListRuleSetsRequest())).RuleSets;
        Assert.Equal(Repository.Engine.Library.RuleSets.Count, all.Count);
    }

    [Fact]
    public async Task A_new_rule_set_can_be_used_without_a_restart_and_is_gone_when_its_folder_is()
    {
        _folder.Write("my-company/rule-set.yaml", "title: Mine\nversion: 1.0.0\nlevel: company\nabove: general-practice\n");
        await Until(list => list.RuleSets.Any(set => set.Id == "my-company"));
        var plan = Example();
        plan.RuleSets.Add("my-company");
        Assert.Contains((await Checks.CheckPlanAsync(new CheckPlanRequest { Plan = plan })).Report.RuleSets, set => set.Id == "my-company");
        Directory.Delete(Path.Combine(_folder.Path, "my-company"), recursive: true);
        await Until(list => list.RuleSets.All(set => set.Id != "my-company"));
    }

    [Fact]
    public async Task A_request_in_flight_is_answered_whole_by_the_rule_sets_that_it_began_with()
    {
        // Two engines whose reports differ in many places are swapped as fast as can be while plans are checked; each answer is
        // one engine's or the other's, never a mixture.
        var engines = _service!.Services.GetRequiredService<EngineSource>();
        var first = engines.Current;
        var stricter = first.Library.RuleSets[RuleLibrary.GeneralPractice].Requirements.Keys.GroupBy(id => id.Split('.')[0])
            .Select(topic => new RuleSets.RuleSetFile($"{topic.Key}.yaml", string.Concat(topic.Select(id => $"{id}: {{ missing: {{ quote: stop, plan: stop, pre-start: stop, close-out: stop }} }}\n"))));
        var second = new CheckEngine(first.Library.With(new RuleSetFiles("stricter",
            [new RuleSets.RuleSetFile("rule-set.yaml", "title: S\nversion: 1.0.0\nlevel: company\nabove: general-practice\njurisdiction: { country: US }\n"), .. stricter]), out var violations)!);
        Assert.Empty(violations);
        var read = PlanReader.ReadMessage(Example(), new ReadOptions(default));
        var expected = new[] { first, second }.Select(engine => ReportMapper.ToMessage(engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!)).ToList();
        Assert.NotEqual(expected[0], expected[1]);
        using var stop = new CancellationTokenSource();
        var swapping = Task.Run(() =>
        {
            while (!stop.IsCancellationRequested)
            {
                engines.Use(second);
                engines.Use(first);
            }
        });
        var answers = new List<Report>();
        do
        {
            answers.AddRange(await Task.WhenAll(Enumerable.Range(0, 50).Select(_ => Check())));
        }
        while (answers.Distinct().Count() < 2 && answers.Count < 5000);
        await stop.CancelAsync();
        await swapping;
        Assert.Equal(2, answers.Distinct().Count());
        Assert.All(answers, answer => Assert.Contains(answer, expected));
    }

    private static string WithVersion(string head, string version) =>
        string.Join('\n', head.Split('\n').Select(line => line.StartsWith("version:", StringComparison.Ordinal) ? $"version: {version}" : line));

    private static RuleSetSummary General(ListRuleSetsResponse list) => list.RuleSets.Single(set => set.Id == RuleLibrary.GeneralPractice);

    private static Plan Example() =>
        PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml")), null, new ReadOptions(default)).Message!;

    private async Task<Report> Check() => (await Checks.CheckPlanAsync(new CheckPlanRequest { Plan = Example() })).Report;

    private async Task<ListRuleSetsResponse> Until(Func<ListRuleSetsResponse, bool> comes)
    {
        using var patience = new CancellationTokenSource(Patience);
        while (true)
        {
            var list = await Catalog.ListRuleSetsAsync(new ListRuleSetsRequest(), cancellationToken: patience.Token);
            if (comes(list))
            {
                return list;
            }

            await Task.Delay(50, patience.Token);
        }
    }
}
