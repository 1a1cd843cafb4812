using System.Globalization;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>Every ratio that docs/performance.md tells, in one run.</summary>
internal static class RatioTable
{
    private const int Few = 8, Many = 1000;

    /// <summary>Measures and writes the table.</summary>
    public static async Task Write()
    {
        Console.WriteLine("| what | measured (processor time) | ratio | aim |\n|---|---|---|---|");
        var (few, many) = (Plans.Facts(Few), Plans.Facts(Many));
        await AgainstComparisons(few);
        Items(few, many);
        await AgainstEcho();
        await Starts();
    }

    private static Report Check(Plan plan) => Repository.Engine.Check(plan, new CheckOptions()).Report!;

    private static async Task AgainstComparisons(Plan plan)
    {
        // A judgement takes one comparison at the least; those that do not apply are not counted.
        var count = Check(plan).Judgements.Count(judgement => judgement.Outcome != Outcome.NotApplicable);
        var comparisons = new PlainComparisons(count);
        const int each = 10;
        async Task Judge() => await Times(() => Task.FromResult(Check(plan)));
        async Task Compare() => await Times(comparisons.Run);
        // What is done often is compiled anew in the background; that belongs to a start and not to a check.
        for (var i = 0; i < 40; i++)
        {
            await Judge();
            await Compare();
        }

        var times = Ratio.Of(25, () => Ratio.Cpu(Judge), () => Ratio.Cpu(Compare));
        var (check, plain) = (times[0], times[1]);
        Ratio.Line($"a check of {Few} items, over {count} plain comparisons by RulesEngine", Invariant($"{check / each:0.00} ms, {plain / each:0.00} ms"), check / plain, "at most 1");

        static async Task Times(Func<Task> work)
        {
            for (var i = 0; i < each; i++)
            {
                await work();
            }
        }
    }

    private static void Items(Plan few, Plan many)
    {
        const int each = 40;
        var times = Ratio.Of(
            9,
            () => Ratio.Cpu(() => { for (var i = 0; i < each; i++) { _ = Check(few); } return Task.CompletedTask; }),
            () => Ratio.Cpu(() => { _ = Check(many); return Task.CompletedTask; }));
        var (item, itemOfMany) = (times[0] / each / Few, times[1] / Many);
        Ratio.Line($"time an item, of {Many} over of {Few}", Invariant($"{itemOfMany:0.000} ms, {item:0.000} ms"), itemOfMany / item, "at most 1.2");
        var (allocated, allocatedOfMany) = (Allocated(few) / Few, Allocated(many) / Many);
        Ratio.Line("allocation an item, over 32 KiB", Invariant($"{allocatedOfMany:0} KiB of {Many}, {allocated:0} KiB of {Few}"), allocatedOfMany / 32, "at most 1");
        var kept = Kept(many) / Many;
        Ratio.Line("what a finished report keeps of it", Invariant($"{kept:0} KiB an item; as a message {ReportMapper.ToMessage(Check(many)).CalculateSize() / 1024.0 / Many:0} KiB"), kept / 32, "what a check that allocates nothing else would have");

        static double Allocated(Plan plan)
        {
            var before = GC.GetAllocatedBytesForCurrentThread();
            _ = Check(plan);
            return (GC.GetAllocatedBytesForCurrentThread() - before) / 1024.0;
        }

        static double Kept(Plan plan)
        {
            var before = GC.GetTotalMemory(forceFullCollection: true);
            var report = Check(plan);
            var after = GC.GetTotalMemory(forceFullCollection: true);
            GC.KeepAlive(report);
            return (after - before) / 1024.0;
        }
    }

    private static async Task AgainstEcho()
    {
        var (check, echo, finished) = await Calls.Measure(Plans.Message(2));
        Ratio.Line("calls of an echo of the same plan, over calls of CheckPlan", Invariant($"{check:0.00} ms a check, {echo:0.00} ms an echo"), check / echo, "at most 5");
        Ratio.Line("calls of the echo, over calls that give a report finished before", Invariant($"{finished:0.00} ms a call"), finished / echo, "what a check that takes no time would have");
    }

    private static async Task Starts()
    {
        await Children.Whole("dotnet", "--version");
        await AgainstVersion("`foamrules check` of the example, over `dotnet --version`", [.. Children.FoamRules, "check", Plans.File]);
        if (Environment.GetEnvironmentVariable("FOAMRULES_NATIVE") is { Length: > 0 } native)
        {
            await AgainstVersion("the same by the native program", native, "check", Plans.File);
        }

        var ready = new List<(TimeSpan Cpu, TimeSpan Clock)>();
        for (var i = 0; i < 5; i++)
        {
            ready.Add(await Children.Until("listening", [.. Children.FoamRules, "serve", "--port", "0"]));
        }

        var cpu = Ratio.Median(ready.Select(one => one.Cpu.TotalMilliseconds));
        var clock = Ratio.Median(ready.Select(one => one.Clock.TotalMilliseconds));
        // On the clock: it works on several cores at once, and who waits for it has no use for what another core did.
        Ratio.Line("`foamrules serve` ready, over 1.5 s", Invariant($"{clock:0} ms on the clock; {cpu:0} ms of processor time"), clock / 1500, "at most 1");
    }

    private static async Task AgainstVersion(string what, params string[] command)
    {
        var times = Ratio.Of(7, () => Children.Whole(command), () => Children.Whole("dotnet", "--version"));
        Ratio.Line(what, Invariant($"{times[0]:0} ms, {times[1]:0} ms"), times[0] / times[1], "at most 3");
    }

    private static string Invariant(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
