using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using FoamRules.Contracts;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Store;
using Grpc.Core;

namespace FoamRules.Trial;

/// <summary>
/// Three instances on one PostgreSQL behind one balancer, under a steady load, killed and told to end in turn. Nothing that was acknowledged may be
/// lost, and no caller may see an error that the client's own retries do not cover.
/// </summary>
internal static class InstancesTrial
{
    private const int Callers = 3;
    private static readonly int[] s_ports = [5180, 5182, 5184];
    private static readonly Uri s_front = new("http://127.0.0.1:5190");
    private static readonly TimeSpan s_pause = TimeSpan.FromMilliseconds(500);

    public static async Task<bool> Run(string folder, string connection, int seconds)
    {
        var instances = await Task.WhenAll(s_ports.Select(port => Instance.Start(folder, port, connection)));
        using var balancer = Balancer();
        await UntilTheFrontAnswers();
        var acknowledged = new ConcurrentDictionary<string, Receipt>();
        var errors = new ConcurrentBag<string>();
        using var end = new CancellationTokenSource();
        var load = Enumerable.Range(0, Callers).Select(caller => Task.Run(() => Send(caller, acknowledged, errors, end.Token))).ToList();
        var started = Stopwatch.GetTimestamp();
        for (var turn = 0; turn < 2 * instances.Length || Stopwatch.GetElapsedTime(started).TotalSeconds < seconds; turn++)
        {
            await Task.Delay(TimeSpan.FromSeconds(8));
            var at = turn / 2 % instances.Length;
            var before = acknowledged.Count;
            string how;
            if (turn % 2 == 0)
            {
                await instances[at].Kill();
                how = "killed (-9)";
            }
            else
            {
                var (code, took) = await instances[at].Terminate();
                how = string.Create(CultureInfo.InvariantCulture, $"told to end (SIGTERM), exit code {code} after {took.TotalSeconds:0.0} s");
            }

            instances[at].Dispose();
            var down = Stopwatch.GetTimestamp();
            instances[at] = await Instance.Start(folder, s_ports[at], connection);
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{Stopwatch.GetElapsedTime(started).TotalSeconds,4:0} s: instance {at + 1} {how}; started again in {Stopwatch.GetElapsedTime(down).TotalSeconds:0.0} s; {acknowledged.Count - before} acknowledged meanwhile, {errors.Count} errors so far"));
        }

        await end.CancelAsync();
        await Task.WhenAll(load);
        foreach (var instance in instances)
        {
            instance.Dispose();
        }

        balancer.Kill();
        foreach (var error in errors.Distinct())
        {
            Console.WriteLine($"not covered by the retries: {error}");
        }

        return await Verify(folder, connection, acknowledged) && errors.IsEmpty;
    }

    private static async Task UntilTheFrontAnswers()
    {
        using var client = new FoamRulesClient(s_front);
        for (var patience = 60; ; patience--)
        {
            try
            {
                await client.CheckAsync(TrialPlans.All[0]);
                return;
            }
            catch (RpcException error)
            {
                if (patience == 0)
                {
                    throw new InvalidOperationException($"no instance answers behind the balancer: {error.Status.Detail}");
                }

                await Task.Delay(TimeSpan.FromSeconds(1));
            }
        }
    }

    private static async Task Send(int caller, ConcurrentDictionary<string, Receipt> acknowledged, ConcurrentBag<string> errors, CancellationToken end)
    {
        using var client = new FoamRulesClient(s_front, new FoamRulesClientOptions { Actor = $"Caller {caller}", Role = "office" });
        for (var i = 0; !end.IsCancellationRequested; i++)
        {
            var request = new SubmitPlanRequest { IdempotencyKey = string.Create(CultureInfo.InvariantCulture, $"trial-{caller}-{i}"), Plan = TrialPlans.All[i % TrialPlans.All.Count] };
            while (!acknowledged.ContainsKey(request.IdempotencyKey) && !end.IsCancellationRequested)
            {
                try
                {
                    acknowledged[request.IdempotencyKey] = (await client.Reviews.SubmitPlanAsync(request, cancellationToken: CancellationToken.None)).Receipt;
                }
                catch (RpcException error)
                {
                    errors.Add($"{error.StatusCode} {error.Status.Detail}");
                }

                await Task.Delay(s_pause, CancellationToken.None);
            }
        }
    }

    private static async Task<bool> Verify(string folder, string connection, ConcurrentDictionary<string, Receipt> acknowledged)
    {
        var store = RecordStore.At(connection, TimeProvider.System);
        var verified = await new LogVerifier(store).Verify([.. acknowledged.Values.Select(receipt => new KnownEntry { Sequence = receipt.Sequence, Hash = receipt.Hash })]);
        var stored = await store.Entries(0, null).ToDictionaryAsync(entry => entry.IdempotencyKey, entry => entry.Hash);
        var lost = acknowledged.Count(one => stored.GetValueOrDefault(one.Key) != one.Value.Hash);
        Console.WriteLine($"{acknowledged.Count} submissions acknowledged, {lost} of them lost; {verified.Entries} entries in the log, {verified.Problems.Count} problems");
        return Command(folder, "log", "verify", "--store", connection) & Command(folder, "replay", "--store", connection) & lost == 0 & verified.Problems.Count == 0;
    }

    private static bool Command(string folder, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(Path.Combine(folder, "foamrules"), arguments) { RedirectStandardOutput = true })!;
        var lines = process.StandardOutput.ReadToEnd().TrimEnd().Split('\n');
        process.WaitForExit();
        Console.WriteLine($"foamrules {string.Join(' ', arguments.TakeWhile(word => word != "--store"))}: exit code {process.ExitCode}; {lines[^1]}");
        return process.ExitCode == 0;
    }

    private static Process Balancer()
    {
        var info = new ProcessStartInfo("haproxy", ["-q", "-f", Testing.Repository.PathOf("deploy", "haproxy", "haproxy.cfg")]);
        info.Environment["FOAMRULES_FRONT"] = "127.0.0.1:5190";
        foreach (var (number, port) in new[] { "ONE", "TWO", "THREE" }.Zip(s_ports))
        {
            info.Environment[$"FOAMRULES_{number}"] = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{port}");
            info.Environment[$"FOAMRULES_{number}_WEB"] = string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{port + 1}");
        }

        return Process.Start(info)!;
    }
}
