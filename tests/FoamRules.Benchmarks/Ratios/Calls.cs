using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Service;
using FoamRules.Testing;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>CheckPlan against an echo of the same plan; server and client are both in this process.</summary>
internal static class Calls
{
    private const int AtOnce = 8, EachRound = 400;

    /// <summary>
    /// Milliseconds of processor time a call, client and server together: of CheckPlan, of the echo, and of an echo that gives a report
    /// that was finished before.
    /// </summary>
    public static async Task<(double Check, double Echo, double Finished)> Measure(Plan plan)
    {
        await using var service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = new Nowhere() });
        await service.StartAsync();
        using var toService = GrpcChannel.ForAddress(AddressOf(service));
        var client = new PlanCheckService.PlanCheckServiceClient(toService);
        var request = new CheckPlanRequest { Plan = plan };
        await using var echo = await Echo.Start((await client.CheckPlanAsync(request)).Report);
        using var toEcho = GrpcChannel.ForAddress(AddressOf(echo));
        var invoker = toEcho.CreateCallInvoker();
        Task Check() => Many(async () => await client.CheckPlanAsync(request));
        Task Give() => Many(async () => await invoker.AsyncUnaryCall(Echo.Call, null, new CallOptions(), plan));
        Task GiveReport() => Many(async () => await invoker.AsyncUnaryCall(Echo.ReportCall, null, new CallOptions(), plan));
        var times = Ratio.Of(12, () => Ratio.Cpu(Check), () => Ratio.Cpu(Give), () => Ratio.Cpu(GiveReport));
        return (times[0] / EachRound, times[1] / EachRound, times[2] / EachRound);
    }

    /// <summary>Something for a profiler to look at: CheckPlan called again and again.</summary>
    public static async Task OverAndOver(Plan plan, int rounds)
    {
        await using var service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = new Nowhere() });
        await service.StartAsync();
        using var channel = GrpcChannel.ForAddress(AddressOf(service));
        var client = new PlanCheckService.PlanCheckServiceClient(channel);
        var request = new CheckPlanRequest { Plan = plan };
        for (var round = 0; round < rounds; round++)
        {
            var (allocated, collected) = (GC.GetTotalAllocatedBytes(), GC.CollectionCount(0));
            var used = await Ratio.Cpu(() => Many(async () => await client.CheckPlanAsync(request)));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{used.TotalMilliseconds / EachRound:0.00} ms, {(GC.GetTotalAllocatedBytes() - allocated) / EachRound / 1024} KiB a call, {GC.CollectionCount(0) - collected} collections, of oldest {GC.CollectionCount(2)}, paused {GC.GetTotalPauseDuration().TotalSeconds:0.0} s"));
        }

        var answer = await client.CheckPlanAsync(request);
        Console.WriteLine($"request {request.CalculateSize()} bytes, answer {answer.CalculateSize()} bytes");
    }

    private static string AddressOf(WebApplication service) => service.Urls.First();

    private static async Task Many(Func<Task> call)
    {
        var left = EachRound;
        await Task.WhenAll(Enumerable.Range(0, AtOnce).Select(async _ =>
        {
            while (Interlocked.Decrement(ref left) >= 0)
            {
                await call();
            }
        }));
    }

    private sealed class Nowhere : ILogEventSink
    {
        public void Emit(LogEvent logEvent)
        {
        }
    }
}
