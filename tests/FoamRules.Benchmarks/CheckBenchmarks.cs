using BenchmarkDotNet.Attributes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Benchmarks;

/// <summary>
/// A check from the facts of a plan to its report, for plans of 1 to 512 work items: the example's items over and over, in
/// the example's area. Compare the time an item at 512 with that at 8.
/// </summary>
[MemoryDiagnoser]
public class CheckBenchmarks
{
    private Plan _plan = null!;
    private Contract.Plan _message = null!;

    /// <summary>How many work items.</summary>
    [Params(1, 8, 64, 512)]
    public int Items { get; set; }

    /// <summary>Makes the plan.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var file = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");
        _message = PlanReader.ReadText(File.ReadAllText(file), file, new ReadOptions(DateTimeOffset.UnixEpoch)).Message!.Clone();
        var items = _message.Work.ToList();
        _message.Work.Clear();
        for (var i = 0; i < Items; i++)
        {
            var item = items[i % items.Count].Clone();
            // The first keep their ids: other parts of the plan name them.
            item.Id = i < items.Count ? item.Id : $"item-{i}";
            _message.Work.Add(item);
        }

        _plan = PlanReader.ReadMessage(_message, new ReadOptions(DateTimeOffset.UnixEpoch)).Plan!;
        _ = Check();
    }

    /// <summary>The engine alone: facts in, report out.</summary>
    [Benchmark]
    public Report Check() => Repository.Engine.Check(_plan, new CheckOptions()).Report!;

    /// <summary>From the message to the report's message, as the service does it.</summary>
    [Benchmark]
    public Contract.Report ReadCheckWrite() =>
        ReportMapper.ToMessage(Repository.Engine.Check(PlanReader.ReadMessage(_message, new ReadOptions(DateTimeOffset.UnixEpoch)).Plan!, new CheckOptions()).Report!);
}
