using FoamRules.Records.Store;
using FoamRules.Testing;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace FoamRules.Records.Tests;

/// <summary>Which store a test runs on.</summary>
public enum StoreKind
{
    /// <summary>A SQLite file in a temporary folder.</summary>
    Sqlite,

    /// <summary>A database of its own on the PostgreSQL server that FOAMRULES_POSTGRES names.</summary>
    Postgres,
}

/// <summary>An empty store that is gone after the test.</summary>
public sealed class TestStore : IAsyncDisposable
{
    private const string Variable = "FOAMRULES_POSTGRES";
    private readonly TemporaryFolder _folder = new();
    private readonly string? _server;

    private TestStore(StoreKind kind)
    {
        Kind = kind;
        _server = kind == StoreKind.Postgres ? Environment.GetEnvironmentVariable(Variable) : null;
        Assert.SkipWhen(kind == StoreKind.Postgres && string.IsNullOrEmpty(_server), $"needs PostgreSQL: {Variable} with a connection string of a user who may create databases");
        Name = $"foamrules_{Guid.NewGuid():N}";
        Place = _server is null ? Path.Combine(_folder.Path, "records.db") : new NpgsqlConnectionStringBuilder(_server) { Database = Name }.ToString();
    }

    /// <summary>Both stores, for theories.</summary>
    public static TheoryData<StoreKind> Kinds { get; } = [StoreKind.Sqlite, StoreKind.Postgres];

    public StoreKind Kind { get; }

    /// <summary>What <c>--store</c> takes.</summary>
    public string Place { get; }

    /// <summary>The database's name on the server.</summary>
    public string Name { get; }

    /// <summary>The folder of the file.</summary>
    public string Folder => _folder.Path;

    public static async Task<TestStore> Create(StoreKind kind)
    {
        var store = new TestStore(kind);
        if (store._server is not null)
        {
            await store.OnServer($"CREATE DATABASE {store.Name}");
        }

        return store;
    }

    /// <summary>Opens it, with further SQLite pragmas.</summary>
    public async Task<RecordStore> Open(TimeProvider? clock = null, params string[] pragmas)
    {
        var store = RecordStore.At(Place, clock ?? new StillClock(), pragmas);
        await store.Prepare(TestContext.Current.CancellationToken);
        return store;
    }

    /// <summary>Does what no service does: changes the tables from outside, past the triggers.</summary>
    public async Task Tamper(string sql)
    {
        if (Kind == StoreKind.Sqlite)
        {
            await using var connection = new SqliteConnection($"Data Source={Place};Pooling=False");
            await connection.OpenAsync();
            await using var command = connection.CreateCommand();
            command.CommandText = $"DROP TRIGGER IF EXISTS entries_stay; DROP TRIGGER IF EXISTS entries_are_kept; {sql}";
            await command.ExecuteNonQueryAsync();
        }
        else
        {
            await using var connection = new NpgsqlConnection(Place);
            await connection.OpenAsync();
            await using var command = new NpgsqlCommand($"ALTER TABLE entries DISABLE TRIGGER ALL; {sql}", connection);
            await command.ExecuteNonQueryAsync();
        }
    }

    /// <summary>Runs a statement on the server, outside the database.</summary>
    public async Task OnServer(string sql)
    {
        await using var connection = new NpgsqlConnection(new NpgsqlConnectionStringBuilder(_server) { Pooling = false }.ToString());
        await connection.OpenAsync();
        await using var command = new NpgsqlCommand(sql, connection);
        await command.ExecuteNonQueryAsync();
    }

    public async ValueTask DisposeAsync()
    {
        SqliteConnection.ClearAllPools();
        if (_server is not null)
        {
            await OnServer($"DROP DATABASE IF EXISTS {Name} WITH (FORCE)");
        }

        _folder.Dispose();
    }
}

/// <summary>A clock that stands until it is moved.</summary>
public sealed class StillClock : TimeProvider
{
    private DateTimeOffset _now = new(2026, 4, 10, 15, 0, 0, TimeSpan.Zero);

    public override DateTimeOffset GetUtcNow() => _now;

    public void Set(DateTimeOffset now) => _now = now;
}
