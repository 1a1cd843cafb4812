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

    /// <summary>Milliseconds of processor time a call, client and server together: of CheckPlan, and of the echo.</summary>
    public static async Task<(double Check, double Echo)> Measure(Plan plan)
    {
        await using var service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = new Nowhere() });
        await service.StartAsync();
        await using var echo = await Ratios.Echo.Start();
        using var toService = GrpcChannel.ForAddress(AddressOf(service));
        using var toEcho = GrpcChannel.ForAddress(AddressOf(echo));
        var client = new PlanCheckService.PlanCheckServiceClient(toService);
        var invoker = toEcho.CreateCallInvoker();
        var request = new CheckPlanRequest { Plan = plan };
        Task Check() => Many(async () => await client.CheckPlanAsync(request));
        Task Give() => Many(async () => await invoker.AsyncUnaryCall(Ratios.Echo.Call, null, new CallOptions(), plan));
        var (check, give) = Ratio.Of(12, () => Ratio.Cpu(Check), () => Ratio.Cpu(Give));
        return (check / EachRound, give / EachRound);
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
