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
        _message = Plans.Message(Items);
        _plan = PlanReader.ReadMessage(_message, Plans.Read).Plan!;
        _ = Check();
    }

    /// <summary>The engine alone: facts in, report out.</summary>
    [Benchmark]
    public Report Check() => Repository.Engine.Check(_plan, new CheckOptions()).Report!;

    /// <summary>From the message to the report's message, as the service does it.</summary>
    [Benchmark]
    public Contract.Report ReadCheckWrite() =>
        ReportMapper.ToMessage(Repository.Engine.Check(PlanReader.ReadMessage(_message, Plans.Read).Plan!, new CheckOptions()).Report!);
}
