using System.Collections.Concurrent;
using System.Diagnostics;
using System.Diagnostics.Tracing;
using System.Globalization;
using Microsoft.Diagnostics.NETCore.Client;

namespace FoamRules.Trial;

/// <summary>One instance of the service, as a process of its own.</summary>
internal sealed class Instance : IDisposable
{
    private static readonly ConcurrentBag<Process> s_started = [];
    private readonly Process _process;
    private readonly TaskCompletionSource _listens = new(TaskCreationOptions.RunContinuationsAsynchronously);

    private Instance(string folder, int port, string? store)
    {
        Port = port;
        string[] arguments = ["serve", "--port", Text(port), "--drain-seconds", "2", .. store is null ? [] : new[] { "--store", store }];
        var info = new ProcessStartInfo(Path.Combine(folder, "foamrules"), arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        _process = Process.Start(info)!;
        s_started.Add(_process);
        // What it writes is read so that the pipes do not fill; what goes wrong is kept.
        _process.OutputDataReceived += (_, line) =>
        {
            if (line.Data?.StartsWith("pages, and HTTP", StringComparison.Ordinal) == true)
            {
                _listens.TrySetResult();
            }

            // That a caller gave up in the middle of a request is logged as an error of the server by its library.
            if (line.Data?.Contains("\"@l\":\"Error\"", StringComparison.Ordinal) == true && !line.Data.Contains("The client reset the request stream", StringComparison.Ordinal))
            {
                Interlocked.Increment(ref _errors);
                LastError = line.Data;
            }
        };
        _process.ErrorDataReceived += (_, line) => LastError = line.Data is { Length: > 0 } said ? said : LastError;
        _process.BeginOutputReadLine();
        _process.BeginErrorReadLine();
    }

    private int _errors;

    /// <summary>The port for gRPC; the one after it is for pages and HTTP.</summary>
    public int Port { get; }

    public Uri Address => new($"http://127.0.0.1:{Text(Port)}");

    /// <summary>Lines of its log that are errors.</summary>
    public int Errors => _errors;

    public string LastError { get; private set; } = "";

    public bool Lives => !_process.HasExited;

    /// <summary>The memory that it holds, in MiB, as the operating system counts it.</summary>
    public double ResidentMiB
    {
        get
        {
            _process.Refresh();
            return _process.WorkingSet64 / 1048576.0;
        }
    }

    /// <summary>
    /// The objects that it still holds after a collection that is forced on it here, in MiB: what a leak makes grow. The resident
    /// memory has beside them what its collector keeps for later.
    /// </summary>
    public async Task<double> LiveMiB()
    {
        await ForceCollection();
        using var web = new HttpClient();
        var metrics = (await web.GetStringAsync(new Uri($"http://127.0.0.1:{Text(Port + 1)}/metrics"))).Split('\n');
        return (Sum(metrics, "dotnet_gc_last_collection_heap_size_bytes{") - Sum(metrics, "dotnet_gc_last_collection_heap_fragmentation_size_bytes{")) / 1048576;
    }

    public int Threads
    {
        get
        {
            _process.Refresh();
            return _process.Threads.Count;
        }
    }

    /// <summary>Ends what is left where a trial was broken off.</summary>
    public static void EndAll()
    {
        foreach (var process in s_started)
        {
            try
            {
                process.Kill();
            }
            catch (InvalidOperationException)
            {
                // It has ended and was put away.
            }
        }
    }

    public static async Task<Instance> Start(string folder, int port, string? store)
    {
        var instance = new Instance(folder, port, store);
        var ended = instance._process.WaitForExitAsync();
        return await Task.WhenAny(instance._listens.Task, ended) == ended
            ? throw new InvalidOperationException($"the instance on {port} did not start: {instance.LastError}")
            : instance;
    }

    /// <summary>Ends it without a word, as kill -9 does.</summary>
    public async Task Kill()
    {
        _process.Kill();
        await _process.WaitForExitAsync();
    }

    /// <summary>Tells it to end, as an operator does, and waits until it has.</summary>
    public async Task<(int Code, TimeSpan Took)> Terminate()
    {
        var started = Stopwatch.GetTimestamp();
        using (var kill = Process.Start("kill", ["-TERM", Text(_process.Id)]))
        {
            await kill.WaitForExitAsync();
        }

        await _process.WaitForExitAsync();
        return (_process.ExitCode, Stopwatch.GetElapsedTime(started));
    }

    public void Dispose()
    {
        if (Lives)
        {
            _process.Kill();
        }

        _process.Dispose();
    }

    // A session that listens for this keyword begins with a full collection, and that is all it is opened for.
    private async Task ForceCollection()
    {
        const long HeapCollect = 0x800000;
        var session = await new DiagnosticsClient(_process.Id).StartEventPipeSessionAsync([new EventPipeProvider("Microsoft-Windows-DotNETRuntime", EventLevel.Informational, HeapCollect)], requestRundown: false);
        using (session)
        {
            var read = session.EventStream.CopyToAsync(Stream.Null);
            await Task.Delay(TimeSpan.FromSeconds(2));
            await session.StopAsync(CancellationToken.None);
            await read;
        }
    }

    private static double Sum(string[] metrics, string name)
    {
        var found = metrics.Where(line => line.StartsWith(name, StringComparison.Ordinal)).ToList();
        return found.Count == 0
            ? throw new InvalidOperationException($"the service's metrics have no {name}")
            : found.Sum(line => double.Parse(line[(line.IndexOf('}', StringComparison.Ordinal) + 1)..].Split(' ', StringSplitOptions.RemoveEmptyEntries)[0], CultureInfo.InvariantCulture));
    }

    private static string Text(int number) => number.ToString(CultureInfo.InvariantCulture);
}
