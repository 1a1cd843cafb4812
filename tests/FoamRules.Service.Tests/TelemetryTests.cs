using System.Collections.Concurrent;
using System.Diagnostics;
using System.Diagnostics.Metrics;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Service.Tests;

/// <summary>What is seen of a check from outside.</summary>
public sealed class TelemetryTests(RunningService service) : IClassFixture<RunningService>
{
    [Fact]
    public async Task A_check_is_counted_with_its_findings_and_has_a_span_and_neither_tells_what_is_in_the_plan()
    {
        var text = await File.ReadAllTextAsync(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), TestContext.Current.CancellationToken);
        var plan = PlanReader.ReadText(text, null, new ReadOptions(DateTimeOffset.UnixEpoch)).Message!;
        // Other tests check plans at the same time: this plan is told from theirs by its number of work items.
        while (plan.Work.Count < 37)
        {
            var copy = plan.Work[0].Clone();
            copy.Id = $"copy-{plan.Work.Count}";
            plan.Work.Add(copy);
        }

        var spans = new ConcurrentQueue<Activity>();
        var told = new ConcurrentQueue<string>();
        using var activities = new ActivityListener
        {
            ShouldListenTo = source => source.Name == CheckTelemetry.Name,
            Sample = (ref ActivityCreationOptions<ActivityContext> _) => ActivitySamplingResult.AllData,
            ActivityStopped = spans.Enqueue,
        };
        ActivitySource.AddActivityListener(activities);
        var counted = new ConcurrentDictionary<string, long>();
        using var meters = new MeterListener { InstrumentPublished = (instrument, listener) => { if (instrument.Meter.Name == CheckTelemetry.Name) { listener.EnableMeasurementEvents(instrument); } } };
        meters.SetMeasurementEventCallback<long>((instrument, value, tags, _) => Note(instrument, value, tags));
        meters.SetMeasurementEventCallback<int>((instrument, value, tags, _) => Note(instrument, value, tags));
        meters.SetMeasurementEventCallback<double>((instrument, _, tags, _) => Note(instrument, 1, tags));
        meters.Start();

        var report = (await service.Client.CheckPlanAsync(new CheckPlanRequest { Plan = plan }, deadline: DateTime.UtcNow.AddMinutes(2))).Report;

        var span = Assert.Single(spans, span => Equals(span.GetTagItem("foamrules.items"), 37));
        Assert.Equal(("plan", "stop", "answer", report.Findings.Count), (span.GetTagItem("foamrules.stage"), span.GetTagItem("foamrules.disposition"), span.GetTagItem("foamrules.purpose"), span.GetTagItem("foamrules.findings")));
        Assert.Equal(report.RuleSets.Select(set => $"{set.Id} {set.Version}"), (string[])span.GetTagItem("foamrules.rule_sets")!);
        foreach (var group in report.Findings.GroupBy(finding => finding.Requirement))
        {
            Assert.True(counted.Where(count => count.Key.StartsWith($"foamrules.findings requirement={group.Key} ", StringComparison.Ordinal)).Sum(count => count.Value) >= group.Count(), group.Key);
        }

        Assert.True(counted["foamrules.checks stage=plan disposition=stop purpose=answer"] >= 1);
        Assert.True(counted["foamrules.check.duration purpose=answer"] >= 1);
        string[] secrets = [plan.Name, plan.Work[0].Id, .. plan.People.Select(person => person.Id)];
        var all = string.Join('\n', told) + string.Join('\n', spans.SelectMany(one => one.TagObjects).Select(tag => $"{tag.Key}={tag.Value}"));
        Assert.All(secrets, secret => Assert.DoesNotContain(secret, all, StringComparison.OrdinalIgnoreCase));

        void Note(Instrument instrument, long value, ReadOnlySpan<KeyValuePair<string, object?>> tags)
        {
            var key = string.Join(' ', [instrument.Name, .. tags.ToArray().Select(tag => $"{tag.Key}={tag.Value}")]);
            told.Enqueue(key);
            counted.AddOrUpdate(key, value, (_, sum) => sum + value);
        }
    }
}
