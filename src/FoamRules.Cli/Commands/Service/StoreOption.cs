using System.CommandLine;
using FoamRules.Records.Store;

namespace FoamRules.Cli.Commands.Service;

/// <summary>Where reviews are kept, and how that is opened.</summary>
internal static class StoreOption
{
    /// <summary>Where reviews are kept.</summary>
    public static Option<string?> Create() => new("--store")
    {
        Description = "where reviews are kept: a SQLite file, which is made where it is missing, or a PostgreSQL connection string (Host=…)",
        DefaultValueFactory = _ => Environment.GetEnvironmentVariable("FOAMRULES_STORE") is { Length: > 0 } given ? given : null,
    };

    /// <summary>Opens a store; on failure says what is wrong and answers null.</summary>
    public static async Task<RecordStore?> Open(string place, CancellationToken cancellation)
    {
        try
        {
            var store = RecordStore.At(place, TimeProvider.System);
            await store.Prepare(cancellation).ConfigureAwait(false);
            return store;
        }
        catch (Exception error) when (error is StoreFaultException or ArgumentException)
        {
            Console.Error.WriteLine($"--store: it cannot be used: {error.Message}");
            return null;
        }
    }
}
