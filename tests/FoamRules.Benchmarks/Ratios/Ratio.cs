using System.Diagnostics;
using System.Globalization;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>Two pieces of work, by turns in one run: on a machine with other work going on only their ratio says something.</summary>
internal static class Ratio
{
    /// <summary>Milliseconds of processor time that each takes, the median of the rounds; both are warmed up first.</summary>
    public static (double First, double Second) Of(int rounds, Func<Task<TimeSpan>> first, Func<Task<TimeSpan>> second)
    {
        var (firsts, seconds) = (new List<double>(), new List<double>());
        for (var round = 0; round < rounds; round++)
        {
            firsts.Add(first().GetAwaiter().GetResult().TotalMilliseconds);
            seconds.Add(second().GetAwaiter().GetResult().TotalMilliseconds);
        }

        return (Median(firsts), Median(seconds));
    }

    /// <summary>The processor time of this process while something is done, all its threads together.</summary>
    public static async Task<TimeSpan> Cpu(Func<Task> work)
    {
        using var self = Process.GetCurrentProcess();
        var before = self.TotalProcessorTime;
        await work();
        self.Refresh();
        return self.TotalProcessorTime - before;
    }

    /// <summary>The middle one.</summary>
    public static double Median(IEnumerable<double> values)
    {
        var sorted = values.Order().ToList();
        return sorted[sorted.Count / 2];
    }

    /// <summary>One line of the table.</summary>
    public static void Line(string what, string measured, double ratio, string aim) =>
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what} | {measured} | {ratio:0.00} | {aim} |"));
}
