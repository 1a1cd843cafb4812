using System.Collections.Concurrent;
using System.Globalization;
using FoamRules.Contracts.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace FoamRules.Trial;

/// <summary>Many callers at once who give up soon and ask again: what nobody waits for any more must not hold up the others, nor break their connections.</summary>
internal static class ImpatientTrial
{
    private const int Callers = 350;
    private const int LongestPatience = 4000;

    public static async Task<bool> Run(string folder, int seconds)
    {
        using var instance = await Instance.Start(folder, 5680, null);
        using var channel = GrpcChannel.ForAddress(instance.Address, new GrpcChannelOptions { MaxReceiveMessageSize = null, HttpHandler = new SocketsHttpHandler { EnableMultipleHttp2Connections = true } });
        var client = new PlanCheckService.PlanCheckServiceClient(channel);
        var request = new CheckPlanRequest { Plan = TrialPlans.All[0] };
        await client.CheckPlanAsync(request);
        var answers = new ConcurrentDictionary<string, int>();
        var end = DateTime.UtcNow.AddSeconds(seconds);
        await Task.WhenAll(Enumerable.Range(0, Callers).Select(async caller =>
        {
            // The same at each run.
            var random = new Random(caller);
            while (DateTime.UtcNow < end)
            {
                var answer = "OK";
                try
                {
                    await client.CheckPlanAsync(request, deadline: DateTime.UtcNow.AddMilliseconds(random.Next(1, LongestPatience)));
                }
                catch (RpcException error)
                {
                    answer = $"{error.StatusCode} {error.Status.Detail}".Trim();
                    if (error.StatusCode == StatusCode.ResourceExhausted)
                    {
                        await Task.Delay(random.Next(200));
                    }
                }

                answers.AddOrUpdate(answer, 1, (_, many) => many + 1);
            }
        }));
        foreach (var (answer, many) in answers.OrderByDescending(answer => answer.Value))
        {
            Console.WriteLine($"{many} {answer}");
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{instance.ResidentMiB:0} MiB; errors in the log: {instance.Errors} {instance.LastError}"));
        return instance.Lives && instance.Errors == 0 && answers.ContainsKey("OK") && !answers.Keys.Any(answer => answer.StartsWith("Internal", StringComparison.Ordinal) || answer.StartsWith("Unavailable", StringComparison.Ordinal));
    }
}
