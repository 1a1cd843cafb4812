using System.Globalization;
using FoamRules.Contracts;
using FoamRules.Contracts.V1;

namespace FoamRules.Trial;

/// <summary>
/// A load for long, modest unless told: neither the memory that the process holds nor the objects that live in it may grow in the second
/// half. The objects are counted after a collection forced on it, at twelve moments.
/// </summary>
internal static class SoakTrial
{
    private const int Callers = 2;
    private const int Counts = 12;
    private const double MostGrowth = 1.0;
    private static readonly TimeSpan s_sample = TimeSpan.FromSeconds(10);

    public static async Task<bool> Run(string folder, int minutes, int pauseMilliseconds)
    {
        var pause = TimeSpan.FromMilliseconds(pauseMilliseconds);
        var store = Path.Combine(Path.GetTempPath(), $"soak-{Guid.NewGuid():N}.db");
        using var instance = await Instance.Start(folder, 5380, store);
        using var client = new FoamRulesClient(instance.Address, new FoamRulesClientOptions { Actor = "Soak", Role = "office" });
        using var end = new CancellationTokenSource(TimeSpan.FromMinutes(minutes));
        var plans = TrialPlans.All;
        var (answers, failures) = (0, 0);
        var load = Enumerable.Range(0, Callers).Select(caller => Task.Run(async () =>
        {
            for (var i = caller; !end.IsCancellationRequested; i++)
            {
                try
                {
                    var plan = plans[i % plans.Count];
                    // One in ten is put on record, the others are only checked.
                    _ = i % 10 == 0 ? (await client.Reviews.SubmitPlanAsync(new SubmitPlanRequest { Plan = plan })).Report : await client.CheckAsync(plan);
                    Interlocked.Increment(ref answers);
                }
                catch (Grpc.Core.RpcException error)
                {
                    Interlocked.Increment(ref failures);
                    Console.WriteLine($"{error.StatusCode}: {error.Status.Detail}");
                }

                await Task.Delay(pause);
            }
        })).ToList();
        var (samples, live) = (new List<(double Minute, double MiB)>(), new List<(double Minute, double MiB)>());
        var started = TimeProvider.System.GetTimestamp();
        while (!end.IsCancellationRequested)
        {
            await Task.Delay(s_sample);
            var minute = TimeProvider.System.GetElapsedTime(started).TotalMinutes;
            samples.Add((minute, instance.ResidentMiB));
            if (minute >= (live.Count + 1) * minutes / (double)Counts)
            {
                live.Add((minute, await instance.LiveMiB()));
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"minute {minute:0}: {answers} answers, {samples[^1].MiB:0} MiB held, {live[^1].MiB:0.0} MiB of objects, {instance.Threads} threads"));
            }
        }

        await Task.WhenAll(load);
        List<(double Minute, double MiB)> SecondHalf(List<(double Minute, double MiB)> all) => [.. all.Where(sample => sample.Minute > minutes / 2.0)];
        var (second, objects) = (SecondHalf(samples), SecondHalf(live));
        var (slope, mean, ofObjects) = (Slope(second), second.Average(sample => sample.MiB), Slope(objects));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{minutes} minutes, {answers} answers, {failures} failures; second half: {mean:0} MiB on average, from {second.Min(sample => sample.MiB):0} to {second.Max(sample => sample.MiB):0}, slope {slope:0.00} MiB a minute; objects from {objects.Min(sample => sample.MiB):0.0} to {objects.Max(sample => sample.MiB):0.0} MiB, slope {ofObjects:0.00}"));
        await instance.Terminate();
        foreach (var file in Directory.EnumerateFiles(Path.GetTempPath(), Path.GetFileName(store) + "*"))
        {
            File.Delete(file);
        }

        return failures == 0 && slope < MostGrowth && ofObjects < MostGrowth;
    }

    // Least squares.
    private static double Slope(List<(double Minute, double MiB)> samples)
    {
        var (x, y) = (samples.Average(sample => sample.Minute), samples.Average(sample => sample.MiB));
        return samples.Sum(sample => (sample.Minute - x) * (sample.MiB - y)) / samples.Sum(sample => (sample.Minute - x) * (sample.Minute - x));
    }
}
