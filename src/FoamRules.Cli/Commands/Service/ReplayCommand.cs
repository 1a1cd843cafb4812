using System.CommandLine;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules replay</c>: makes stored reports again.</summary>
internal static class ReplayCommand
{
    public static Command Create()
    {
        var id = new Argument<string?>("ID") { Description = "the review; all where it is left out", Arity = ArgumentArity.ZeroOrOne };
        var rules = CommonOptions.Rules();
        var store = StoreOption.Create();
        var command = new Command("replay", """
            Makes stored reports again from what was stored with them: each must come out byte for byte. Where today's rule sets are
            others, says what they would say instead. Exit code 0: all came out; 20: one did not; 2: unusable input.

            Example:
              foamrules replay --store records.db
            """)
        {
            id, rules, store,
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
                return await Replay(new Replayer(records, engine), parsed.GetValue(id), cancellation).ConfigureAwait(false);
            }
            catch (StoreFaultException fault)
            {
                Console.Error.WriteLine($"--store: {fault.Message}");
                return ExitCode.Unusable;
            }
        });
        return command;
    }

    private static async Task<int> Replay(Replayer replayer, string? id, CancellationToken cancellation)
    {
        var (same, others) = (0, 0);
        await foreach (var replay in replayer.Replay(id, cancellation).ConfigureAwait(false))
        {
            _ = replay.Same ? same++ : others++;
            Console.Out.WriteLine($"{replay.Receipt.Sequence}  {replay.Receipt.ReviewId}  {Words.Of(replay.Receipt.Kind)}: {(replay.Same ? "same" : replay.WhyNot)}");
            if (replay.Same && replay.EngineThen != replay.EngineNow)
            {
                Console.Out.WriteLine($"    made by engine {replay.EngineThen}, replayed by {replay.EngineNow}");
            }

            foreach (var change in replay.RuleSetsChanged)
            {
                Console.Out.WriteLine($"    {change}");
            }

            foreach (var change in replay.Today)
            {
                Console.Out.WriteLine($"    today: {change.Requirement} {change.Subject.Id}: {Severity(change.Before)} -> {Severity(change.After)}");
            }
        }

        Console.Out.WriteLine($"{same} came out byte for byte, {others} did not");
        if (same + others == 0 && id is not null)
        {
            Console.Error.WriteLine($"found no review `{id}`");
            return ExitCode.Unusable;
        }

        return others == 0 ? ExitCode.Proceed : ExitCode.Stop;
    }

    private static string Severity(Contracts.V1.FindingState? state) => state is null ? "nothing" : state.Severity.ToString();
}
