using System.Diagnostics;
using System.Globalization;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>Pieces of work, by turns in one run: on a machine with other work going on only their ratio says something.</summary>
internal static class Ratio
{
    /// <summary>Milliseconds of processor time that each takes, the median of the rounds; all are warmed up first.</summary>
    public static double[] Of(int rounds, params Func<Task<TimeSpan>>[] each)
    {
        var taken = each.Select(_ => new List<double>()).ToArray();
        for (var round = 0; round < rounds; round++)
        {
            foreach (var (piece, times) in each.Zip(taken))
            {
                times.Add(piece().GetAwaiter().GetResult().TotalMilliseconds);
            }
        }

        return [.. taken.Select(Median)];
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
