using System.CommandLine;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Records.Log;
using FoamRules.Records.Store;
using Google.Protobuf;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules log</c>: verifies and exports the log of a store.</summary>
internal static class LogCommand
{
    public static Command Create() => new("log", """
        Verifies and exports the log of reviews. Exit code 0: nothing is wrong; 20: something is; 2: unusable input.

        Examples:
          foamrules log verify --store records.db
          foamrules log export --store records.db > log.jsonl
        """)
    {
        Verify(), Export(),
    };

    /// <summary>Opens the store that is named; says what is wrong and answers null where none is, or where it cannot be used.</summary>
    public static async Task<RecordStore?> Open(string? place, CancellationToken cancellation)
    {
        if (place is null)
        {
            Console.Error.WriteLine("--store: name the store, a SQLite file or a PostgreSQL connection string");
            return null;
        }

        // Only what writes reviews makes a new store: a wrong name must not look like an empty log.
        if (!place.Contains("Host=", StringComparison.OrdinalIgnoreCase) && !File.Exists(place))
        {
            Console.Error.WriteLine($"--store: {place}: no such file");
            return null;
        }

        return await StoreOption.Open(place, cancellation).ConfigureAwait(false);
    }

    private static Command Verify()
    {
        var store = StoreOption.Create();
        var known = new Option<string[]>("--known") { Description = "an entry whose hash was kept elsewhere, as NUMBER:HASH; it must be in the log as it was" };
        known.Validators.Add(result =>
        {
            foreach (var token in result.Tokens.Where(token => Known(token.Value) is null))
            {
                result.AddError($"--known: found `{token.Value}`; allowed: NUMBER:HASH, as receipts and log verify give them");
            }
        });
        var command = new Command("verify", "Says whether an entry was changed, taken out or moved. Exit code 0: nothing is wrong; 20: something is; 2: unusable input.") { store, known };
        command.SetAction((parsed, cancellation) => WithStore(parsed.GetValue(store), async records =>
        {
            var verified = await new LogVerifier(records).Verify([.. (parsed.GetValue(known) ?? []).Select(one => Known(one)!)], cancellation).ConfigureAwait(false);
            foreach (var problem in verified.Problems)
            {
                Console.Out.WriteLine(problem.Sequence == 0 ? problem.What : string.Create(CultureInfo.InvariantCulture, $"entry {problem.Sequence}: {problem.What}"));
            }

            Console.Out.WriteLine($"{verified.Entries} entries, {verified.Problems.Count} problems; the last is {verified.Last.Sequence}:{verified.Last.Hash}");
            return verified.Problems.Count == 0 ? ExitCode.Proceed : ExitCode.Stop;
        }, cancellation));
        return command;
    }

    private static Command Export()
    {
        var store = StoreOption.Create();
        var after = new Option<long>("--after") { Description = "only entries after this one" };
        var command = new Command("export", "Writes the log as JSON Lines: each entry as it was written, with its act in words.") { store, after };
        command.SetAction((parsed, cancellation) => WithStore(parsed.GetValue(store), async records =>
        {
            await foreach (var entry in records.Entries(parsed.GetValue(after), null, cancellation).ConfigureAwait(false))
            {
                await Console.Out.WriteLineAsync(JsonFormatter.Default.Format(LogExport.Of(entry))).ConfigureAwait(false);
            }

            return ExitCode.Proceed;
        }, cancellation));
        return command;
    }

    private static async Task<int> WithStore(string? place, Func<RecordStore, Task<int>> work, CancellationToken cancellation)
    {
        try
        {
            return await Open(place, cancellation).ConfigureAwait(false) is { } records ? await work(records).ConfigureAwait(false) : ExitCode.Unusable;
        }
        catch (StoreFaultException fault)
        {
            Console.Error.WriteLine($"--store: {fault.Message}");
            return ExitCode.Unusable;
        }
    }

    private static KnownEntry? Known(string text) =>
        text.Split(':') is [var number, { Length: 64 } hash] && long.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var sequence)
            ? new KnownEntry { Sequence = sequence, Hash = hash }
            : null;
}
