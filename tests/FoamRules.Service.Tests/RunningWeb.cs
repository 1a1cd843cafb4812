using System.Collections.Concurrent;
using System.Text;
using System.Text.Json.Nodes;
using FoamRules.Records.Store;
using FoamRules.Testing;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests;

/// <summary>The service with its port for HTTP with JSON, a store of reviews, and its log kept.</summary>
public sealed class RunningWeb : IAsyncLifetime, ILogEventSink
{
    private readonly TemporaryFolder _folder = new();
    private WebApplication? _service;

    public HttpClient Client { get; } = new() { Timeout = TimeSpan.FromMinutes(2) };

    public GrpcChannel Channel { get; private set; } = null!;

    /// <summary>Everything that was logged.</summary>
    public ConcurrentQueue<LogEvent> Log { get; } = new();

    void ILogEventSink.Emit(LogEvent logEvent) => Log.Enqueue(logEvent);

    public async ValueTask InitializeAsync()
    {
        var store = RecordStore.At(Path.Combine(_folder.Path, "reviews.db"), TimeProvider.System);
        await store.Prepare(CancellationToken.None);
        _service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, WebPort = 0, Log = this, Records = store });
        await _service.StartAsync();
        var urls = _service.Urls.ToList();
        Channel = GrpcChannel.ForAddress(urls[0]);
        Client.BaseAddress = new Uri(urls[1]);
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        Channel.Dispose();
        await _service!.StopAsync();
        await _service.DisposeAsync();
        _folder.Dispose();
    }

    /// <summary>Sends a text; a request with a caller where one is named.</summary>
    public async Task<HttpResponseMessage> Send(HttpMethod method, string path, string? text = null, string? type = "application/json", string? role = null)
    {
        using var request = new HttpRequestMessage(method, path);
        if (text is not null)
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(text));
            if (type is not null)
            {
                request.Content.Headers.TryAddWithoutValidation("Content-Type", type);
            }
        }

        if (role is not null)
        {
            request.Headers.Add("x-actor", "Sam Safety");
            request.Headers.Add("x-role", role);
        }

        return await Client.SendAsync(request);
    }

    /// <summary>Sends a text, and reads the answer, which is as it should be.</summary>
    public async Task<string> Answer(HttpMethod method, string path, string? text = null, string? type = "application/json", string? role = null)
    {
        using var response = await Send(method, path, text, type, role);
        var answer = await response.Content.ReadAsStringAsync();
        Assert.True(response.IsSuccessStatusCode, answer);
        return answer;
    }

    /// <summary>Sends a text, and reads the problem that is answered.</summary>
    public async Task<JsonObject> Problem(int status, HttpMethod method, string path, string? text = null, string? type = "application/json", string? role = null)
    {
        using var response = await Send(method, path, text, type, role);
        var answer = await response.Content.ReadAsStringAsync();
        Assert.True((int)response.StatusCode == status, $"{(int)response.StatusCode}: {answer}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        Assert.DoesNotContain("   at ", answer, StringComparison.Ordinal);
        var problem = JsonNode.Parse(answer)!.AsObject();
        Assert.Equal(status, (int)problem["status"]!);
        Assert.NotEmpty((string)problem["title"]!);
        Assert.NotEmpty((string)problem["detail"]!);
        return problem;
    }
}
