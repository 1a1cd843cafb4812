using FoamRules.Exchange;
using FoamRules.Model;
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
}
