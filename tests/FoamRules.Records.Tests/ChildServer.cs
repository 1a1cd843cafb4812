using System.Diagnostics;
using FoamRules.Cli;
using FoamRules.Testing;

namespace FoamRules.Records.Tests;

/// <summary><c>foamrules</c> as a process of its own, as its users run it.</summary>
internal sealed class ChildServer : IAsyncDisposable
{
    private const string Says = "listening on ";
    private readonly Process _process;
    private Task _rest = Task.CompletedTask;

    private ChildServer(Process process) => _process = process;

    /// <summary>Its address.</summary>
    public string Address { get; private set; } = "";

    // Tests are built in the same configuration as the command line.
    private static string Cli => Repository.PathOf("src", "FoamRules.Cli", "bin", Path.GetFileName(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)))!, "net10.0", "foamrules.dll");

    public static async Task<ChildServer> Start(string place)
    {
        var server = new ChildServer(Process.Start(Info("serve", "--port", "0", "--store", place))!);
        using var patience = new CancellationTokenSource(TimeSpan.FromMinutes(3));
        while (await server._process.StandardOutput.ReadLineAsync(patience.Token) is { } line)
        {
            if (line.StartsWith(Says, StringComparison.Ordinal))
            {
                server.Address = line[Says.Length..];
                // The rest of the log is read so that the pipe does not fill.
                server._rest = Task.WhenAll(server._process.StandardOutput.ReadToEndAsync(CancellationToken.None), server._process.StandardError.ReadToEndAsync(CancellationToken.None));
                return server;
            }
        }

        throw new InvalidOperationException("the service did not start: " + await server._process.StandardError.ReadToEndAsync(patience.Token));
    }

    /// <summary>Starts it and ends it as kill -9 does, as soon as something has come about.</summary>
    public static async Task KilledOnce(string place, Func<bool> now)
    {
        await using var server = new ChildServer(Process.Start(Info("serve", "--port", "0", "--store", place))!);
        server._rest = Task.WhenAll(server._process.StandardOutput.ReadToEndAsync(), server._process.StandardError.ReadToEndAsync());
        while (!now() && !server._process.HasExited)
        {
            await Task.Delay(TimeSpan.FromMilliseconds(2));
        }
    }

    /// <summary>Calls a command to its end; in this process, since a start takes longer than most commands.</summary>
    public static Task<Ran> Run(params string[] arguments) => Screens.Of(() => CommandLine.Run(arguments));

    /// <summary>Ends it without a word, as kill -9 does.</summary>
    public async Task Kill()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
        await _rest;
    }

    public async ValueTask DisposeAsync()
    {
        if (!_process.HasExited)
        {
            await Kill();
        }

        _process.Dispose();
    }

    private static ProcessStartInfo Info(params string[] arguments) =>
        new("dotnet", [Cli, .. arguments]) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false, WorkingDirectory = Repository.Root };
}
