using System.Globalization;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Benchmarks;

/// <summary>The example plan with any number of work items: its own over and over, in its areas.</summary>
internal static class Plans
{
    /// <summary>The moment at which the plans are judged.</summary>
    public static ReadOptions Read { get; } = new(DateTimeOffset.UnixEpoch);

    /// <summary>The file of the example.</summary>
    public static string File { get; } = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");

    /// <summary>The plan as a message.</summary>
    public static Contract.Plan Message(int items)
    {
        var message = PlanReader.ReadText(System.IO.File.ReadAllText(File), File, Read).Message!.Clone();
        var own = message.Work.ToList();
        message.Work.Clear();
        for (var i = 0; i < items; i++)
        {
            var item = own[i % own.Count].Clone();
            // The first keep their ids: other parts of the plan name them.
            item.Id = i < own.Count ? item.Id : $"item-{i}";
            message.Work.Add(item);
        }

        return message;
    }

    /// <summary>The plan's facts.</summary>
    public static Plan Facts(int items) => PlanReader.ReadMessage(Message(items), Read).Plan!;

    /// <summary>Something for a profiler to look at: one plan, checked again and again.</summary>
    public static void CheckOverAndOver(int items, int times)
    {
        var plan = Facts(items);
        var (allocated, used) = (0L, TimeSpan.Zero);
        for (var i = 0; i < times; i++)
        {
            // Only the second half is told: by then what is done often is compiled.
            if (i == times / 2)
            {
                (allocated, used) = (GC.GetAllocatedBytesForCurrentThread(), Environment.CpuUsage.TotalTime);
            }

            _ = Repository.Engine.Check(plan, new CheckOptions());
        }

        var (half, each) = (times - (times / 2), items * 1024.0);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"an item of {items}: {(GC.GetAllocatedBytesForCurrentThread() - allocated) / half / each:0} KiB, {(Environment.CpuUsage.TotalTime - used).TotalMilliseconds / half / items:0.000} ms of processor time"));
    }
}
