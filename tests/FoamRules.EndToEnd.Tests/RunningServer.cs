using System.Diagnostics;

namespace FoamRules.EndToEnd.Tests;

/// <summary><c>foamrules serve</c> as a process of its own.</summary>
public sealed class RunningServer : IAsyncLifetime
{
    private const string Says = "listening on ", SaysWeb = "pages, and HTTP with JSON, on ";
    private Process? _process;
    private Task _rest = Task.CompletedTask;

    /// <summary>Its address, such as http://127.0.0.1:40123.</summary>
    public string Address { get; private set; } = "";

    /// <summary>Its address for HTTP with JSON.</summary>
    public string WebAddress { get; private set; } = "";

    /// <summary>Its host and port.</summary>
    public string Authority => new Uri(Address).Authority;

    public async ValueTask InitializeAsync()
    {
        _process = Process.Start(Programs.FoamRulesStart("serve", "--port", "0"))!;
        using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(60));
        while (await _process.StandardOutput.ReadLineAsync(patience.Token) is { } line)
        {
            if (line.StartsWith(Says, StringComparison.Ordinal))
            {
                Address = line[Says.Length..];
            }
            else if (line.StartsWith(SaysWeb, StringComparison.Ordinal))
            {
                WebAddress = line[SaysWeb.Length..];
                // The rest of the log is read so that the pipe does not fill.
                _rest = Task.WhenAll(_process.StandardOutput.ReadToEndAsync(CancellationToken.None), _process.StandardError.ReadToEndAsync(CancellationToken.None));
                return;
            }
        }

        throw new InvalidOperationException("the service did not start: " + await _process.StandardError.ReadToEndAsync(patience.Token));
    }

    public async ValueTask DisposeAsync()
    {
        _process!.Kill();
        await _process.WaitForExitAsync();
        await _rest;
        _process.Dispose();
    }
}
