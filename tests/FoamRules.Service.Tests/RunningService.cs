using System.Collections.Concurrent;
using FoamRules.Contracts.V1;
using FoamRules.Testing;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests;

/// <summary>The service on a free port of this machine, with a real connection to it and its log kept.</summary>
public sealed class RunningService : IAsyncLifetime
{
    private WebApplication? _service;

    public GrpcChannel Channel { get; private set; } = null!;

    public PlanCheckService.PlanCheckServiceClient Client { get; private set; } = null!;

    /// <summary>Everything that was logged.</summary>
    public ConcurrentQueue<LogEvent> Log { get; } = new();

    public async ValueTask InitializeAsync()
    {
        _service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = new Sink(Log) });
        await _service.StartAsync();
        Channel = GrpcChannel.ForAddress(_service.Urls.Single());
        Client = new PlanCheckService.PlanCheckServiceClient(Channel);
    }

    public async ValueTask DisposeAsync()
    {
        Channel.Dispose();
        await _service!.StopAsync();
        await _service.DisposeAsync();
    }

    private sealed class Sink(ConcurrentQueue<LogEvent> log) : ILogEventSink
    {
        public void Emit(LogEvent logEvent) => log.Enqueue(logEvent);
    }
}
