using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using FoamRules.Cli.Output;
using FoamRules.Records.Rechecks;
using FoamRules.Records.Store;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules recheck</c>: what today's rule sets say of the archive.</summary>
internal static class RecheckCommand
{
    public static Command Create()
    {
        var rules = CommonOptions.Rules();
        var store = StoreOption.Create();
        var format = new Option<string>("--format") { Description = "text: a summary; jsonl: each review that comes out otherwise, a line each, and the summary last", DefaultValueFactory = _ => "text" };
        format.AcceptOnlyFromAmong("text", "jsonl");
        var workers = new Option<int>("--workers") { Description = "how many plans are checked at a time; left out, one on each core", DefaultValueFactory = _ => Environment.ProcessorCount };
        workers.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 1 or > 256)
            {
                result.AddError("--workers: allowed: 1 to 256");
            }
        });
        var command = new Command("recheck", """
            Checks the newest plan of every review again with today's rule sets, and says which come out otherwise. Nothing on record
            changes. A run that was broken off goes on where it was; several machines that share a PostgreSQL store share one run: start
            the command on each. Exit code 0: no review comes out worse; 10: one does, or cannot be judged any more; 2: unusable input.

            Examples:
              foamrules recheck --store records.db
              foamrules recheck --store "Host=db;Database=foamrules" --rules new-rulesets --format jsonl > changed.jsonl
            """)
        {
            rules, store, format, workers,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (await LogCommand.Open(parsed.GetValue(store), cancellation).ConfigureAwait(false) is not { } records
                || CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return ExitCode.Unusable;
            }

            try
            {
                var recheck = new Recheck(records, engine, TimeProvider.System);
                var run = await recheck.Begin(cancellation).ConfigureAwait(false);
                await Work(recheck, run, parsed.GetValue(workers), cancellation).ConfigureAwait(false);
                var summary = await recheck.Summary(run, cancellation).ConfigureAwait(false);
                await (parsed.GetValue(format) == "jsonl" ? WriteLines(recheck, run, summary, cancellation) : Console.Out.WriteAsync(RecheckText.Of(summary))).ConfigureAwait(false);
                return summary is { Worse: 0, NotJudged: 0 } ? ExitCode.Proceed : ExitCode.Hold;
            }
            catch (StoreFaultException fault)
            {
                Console.Error.WriteLine($"--store: {fault.Message}");
                return ExitCode.Unusable;
            }
        });
        return command;
    }

    private static async Task Work(Recheck recheck, RecheckRunRow run, int workers, CancellationToken cancellation)
    {
        var before = await recheck.Checked(run, cancellation).ConfigureAwait(false);
        if (before > 0)
        {
            Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"going on with a run in which {before} of {run.Reviews} reviews are checked"));
        }

        using var progress = BatchProgress.Start(run.Reviews);
        progress.Advance(before);
        var here = string.Create(CultureInfo.InvariantCulture, $"{Environment.MachineName}:{Environment.ProcessId}");
        await Task.WhenAll(Enumerable.Range(1, workers).Select(number => Task.Run(() => recheck.Work(run, $"{here}:{number}", progress.Advance, cancellation), cancellation))).ConfigureAwait(false);
    }

    private static async Task WriteLines(Recheck recheck, RecheckRunRow run, RecheckSummary summary, CancellationToken cancellation)
    {
        await foreach (var review in recheck.Changed(run, cancellation).ConfigureAwait(false))
        {
            await Console.Out.WriteLineAsync(JsonSerializer.Serialize(review, RecheckResult.Json)).ConfigureAwait(false);
        }

        await Console.Out.WriteLineAsync(JsonSerializer.Serialize(summary, RecheckResult.Json)).ConfigureAwait(false);
    }
}
