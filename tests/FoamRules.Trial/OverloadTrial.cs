using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using FoamRules.Contracts.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace FoamRules.Trial;

/// <summary>
/// Ten times as many calls as the service can answer, sent by the clock and not as answers come: it answers what it can, refuses the
/// rest with a status that says so, stays up, holds no more memory than it must, and is well afterwards.
/// </summary>
internal static class OverloadTrial
{
    private const int Times = 10;
    private const double MostMiB = 2048;

    /// <summary>Runs it.</summary>
    /// <param name="folder">The folder of the program.</param>
    /// <param name="seconds">How long.</param>
    /// <param name="rate">How many calls a second are sent; null: ten times the capacity that is measured.</param>
    public static async Task<bool> Run(string folder, int seconds, int? rate)
    {
        using var instance = await Instance.Start(folder, 5480, null);
        using var channel = GrpcChannel.ForAddress(instance.Address, new GrpcChannelOptions { MaxReceiveMessageSize = null, HttpHandler = new SocketsHttpHandler { EnableMultipleHttp2Connections = true } });
        var client = new PlanCheckService.PlanCheckServiceClient(channel);
        var request = new CheckPlanRequest { Plan = TrialPlans.All[0] };
        var capacity = await Capacity(client, request);
        var before = instance.ResidentMiB;
        var sent = rate ?? capacity * Times;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"capacity {capacity:0.0} calls a second; sending {sent:0} a second for {seconds} s"));
        var answers = new ConcurrentDictionary<string, int>();
        var (calls, most, unwell) = (new List<Task>(), 0.0, 0);
        using var http = new HttpClient { Timeout = TimeSpan.FromSeconds(10) };
        var started = Stopwatch.GetTimestamp();
        var probed = 0;
        while (Stopwatch.GetElapsedTime(started).TotalSeconds is var now && now < seconds)
        {
            while (calls.Count < now * sent)
            {
                calls.Add(Call(client, request, answers));
            }

            if (probed < (int)now)
            {
                probed = (int)now;
                most = Math.Max(most, instance.ResidentMiB);
                unwell += await IsAlive(http, instance) ? 0 : 1;
            }

            await Task.Delay(5);
        }

        await Task.WhenAll(calls);
        Console.WriteLine($"{calls.Count} calls: {string.Join(", ", answers.OrderByDescending(answer => answer.Value).Select(answer => $"{answer.Key} {answer.Value}"))}");
        most = Math.Max(most, instance.ResidentMiB);
        var after = new ConcurrentDictionary<string, int>();
        // The bucket of calls a minute fills again meanwhile.
        await Task.Delay(TimeSpan.FromSeconds(15));
        var last = Stopwatch.GetTimestamp();
        await Call(client, request, after);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"memory {before:0} MiB before, {most:0} MiB at most; {unwell} of {probed} probes of liveness unanswered; afterwards a call is answered {after.Keys.Single()} in {Stopwatch.GetElapsedTime(last).TotalMilliseconds:0} ms; errors in the log: {instance.Errors} {instance.LastError}"));
        string[] allowed = ["OK", "ResourceExhausted", "DeadlineExceeded", "Unavailable"];
        return instance.Lives && most < MostMiB && after.ContainsKey("OK") && answers.ContainsKey("OK") && answers.ContainsKey("ResourceExhausted") && answers.Keys.All(allowed.Contains);
    }

    // So many at once that the service never waits for a caller, each as soon as the one before is answered. Measured until it
    // grows no more: at first the service compiles.
    private static async Task<double> Capacity(PlanCheckService.PlanCheckServiceClient client, CheckPlanRequest request)
    {
        var (before, capacity) = (0.0, await Measured(client, request));
        while (capacity > 1.1 * before)
        {
            (before, capacity) = (capacity, await Measured(client, request));
        }

        return Math.Max(before, capacity);
    }

    private static async Task<double> Measured(PlanCheckService.PlanCheckServiceClient client, CheckPlanRequest request)
    {
        var answers = new ConcurrentDictionary<string, int>();
        var (count, started) = (0, Stopwatch.GetTimestamp());
        await Task.WhenAll(Enumerable.Range(0, 16 * Environment.ProcessorCount).Select(async _ =>
        {
            while (Stopwatch.GetElapsedTime(started).TotalSeconds < 10)
            {
                await Call(client, request, answers);
                Interlocked.Increment(ref count);
            }
        }));
        return answers.Keys.Single() == "OK" ? count / Stopwatch.GetElapsedTime(started).TotalSeconds : throw new InvalidOperationException($"a call was refused without a load: {string.Join(", ", answers.Keys)}");
    }

    private static async Task Call(PlanCheckService.PlanCheckServiceClient client, CheckPlanRequest request, ConcurrentDictionary<string, int> answers)
    {
        string answer;
        try
        {
            await client.CheckPlanAsync(request, deadline: DateTime.UtcNow.AddSeconds(20));
            answer = "OK";
        }
        catch (RpcException error)
        {
            answer = error.StatusCode.ToString();
        }

        answers.AddOrUpdate(answer, 1, (_, many) => many + 1);
    }

    private static async Task<bool> IsAlive(HttpClient http, Instance instance)
    {
        try
        {
            return (await http.GetAsync(new Uri($"http://127.0.0.1:{instance.Port + 1}/healthz/live"))).IsSuccessStatusCode;
        }
        catch (Exception error) when (error is HttpRequestException or TaskCanceledException)
        {
            return false;
        }
    }
}
