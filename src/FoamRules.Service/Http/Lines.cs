using System.Text.Json.Nodes;
using Google.Protobuf.Reflection;
using Grpc.Core;

namespace FoamRules.Service.Http;

/// <summary>
/// Many requests, one a line. A line that cannot be read is answered with its number and its problem, and the others go on.
/// </summary>
/// <param name="lines">The lines; empty ones are passed over.</param>
/// <param name="type">The request's type.</param>
/// <param name="refuse">Answers a line that cannot be read.</param>
internal sealed class LineReader<T>(string[] lines, MessageDescriptor type, Func<int, UnusableException, Task> refuse) : IAsyncStreamReader<T>
    where T : class
{
    private int _next;

    public T Current { get; private set; } = null!;

    public async Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        while (_next < lines.Length)
        {
            cancellationToken.ThrowIfCancellationRequested();
            var line = lines[_next++];
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            try
            {
                Current = (T)HttpInput.ReadLine(line, type);
                return true;
            }
            catch (UnusableException error)
            {
                await refuse(_next, error).ConfigureAwait(false);
            }
        }

        return false;
    }
}

/// <summary>Many answers, one a line, each sent as soon as it is there.</summary>
/// <param name="response">Where they go.</param>
internal sealed class LineWriter<T>(HttpResponse response) : IServerStreamWriter<T>, IDisposable
{
    public const string ContentType = "application/x-ndjson";

    private readonly SemaphoreSlim _one = new(1);

    public WriteOptions? WriteOptions { get; set; }

    public Task WriteAsync(T message) => WriteAsync(message, CancellationToken.None);

    public Task WriteAsync(T message, CancellationToken cancellationToken) => Write(HttpDoor.Json.Format((Google.Protobuf.IMessage)message!), cancellationToken);

    /// <summary>Answers a line, or all that were to follow, with a problem.</summary>
    /// <param name="line">The line, from 1; null: the answers end here.</param>
    /// <param name="problem">What is wrong.</param>
    public Task Refuse(int? line, JsonObject problem)
    {
        var answer = new JsonObject();
        if (line is not null)
        {
            answer["line"] = line;
        }

        answer["problem"] = problem;
        return Write(answer.ToJsonString(), CancellationToken.None);
    }

    /// <summary>Sends the head where no line was sent.</summary>
    public Task Finish() => response.HasStarted ? Task.CompletedTask : Begin();

    public void Dispose() => _one.Dispose();

    private Task Begin()
    {
        response.ContentType = ContentType;
        return response.StartAsync();
    }

    private async Task Write(string line, CancellationToken cancellation)
    {
        await _one.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            if (!response.HasStarted)
            {
                await Begin().ConfigureAwait(false);
            }

            await response.WriteAsync(line + "\n", cancellation).ConfigureAwait(false);
            await response.Body.FlushAsync(cancellation).ConfigureAwait(false);
        }
        finally
        {
            _one.Release();
        }
    }
}
