using FoamRules.Cli.Output;

namespace FoamRules.Cli.Commands;

/// <summary>Checks plans on all cores and hands out what came of each in the order of the plans.</summary>
internal static class PlanBatch
{
    /// <summary>Checks plans, writes what came of each, and answers the worst of it.</summary>
    public static async Task<int> Run(IReadOnlyList<string> files, Request request, Checker checker, IPlanOutput output, CancellationToken cancellation)
    {
        var checkedPlans = new List<PlanChecked>();
        using (var progress = BatchProgress.Start(files.Count))
        {
            await foreach (var plan in InOrder(files, request, checker, cancellation).ConfigureAwait(false))
            {
                progress.Advance();
                checkedPlans.Add(plan);
                // A bar and the reports on one terminal would run into each other.
                if (!progress.SharesTerminal)
                {
                    Write(plan, output);
                }
            }

            progress.Finish();
            if (progress.SharesTerminal)
            {
                checkedPlans.ForEach(plan => Write(plan, output));
            }
        }

        if (files.Count > 1)
        {
            output.WriteSummary(checkedPlans);
        }

        output.Finish();

        return checkedPlans.Select(plan => plan.Code).Aggregate(ExitCode.Proceed, ExitCode.Worse);
    }

    // A few more than there are cores are under way at a time, so that memory stays bounded however many plans there are.
    private static async IAsyncEnumerable<PlanChecked> InOrder(
        IReadOnlyList<string> files, Request request, Checker checker, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancellation)
    {
        var underWay = new Queue<Task<PlanChecked>>();
        var most = files.Count == 1 ? 1 : Environment.ProcessorCount * 2;
        foreach (var file in files)
        {
            if (underWay.Count == most)
            {
                yield return await underWay.Dequeue().ConfigureAwait(false);
            }

            underWay.Enqueue(Task.Run(() => PlanCheck.Run(file, request, checker, cancellation), cancellation));
        }

        while (underWay.TryDequeue(out var plan))
        {
            yield return await plan.ConfigureAwait(false);
        }
    }

    private static void Write(PlanChecked plan, IPlanOutput output)
    {
        foreach (var problem in plan.Problems)
        {
            Console.Error.WriteLine(problem);
        }

        if (plan.Report is { } report)
        {
            output.Write(report, plan);
        }
    }
}
