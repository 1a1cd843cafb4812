using System.Net;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using FoamRules.Rules.Engine;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Serilog;
using Serilog.Core;
using Serilog.Formatting.Compact;

namespace FoamRules.Service;

/// <summary>Builds the service: gRPC on this machine's loopback address, health, reflection, structured logs.</summary>
public static class ServiceHost
{
    /// <summary>The largest message that is taken, in bytes; a plan of 10,000 plain items fits.</summary>
    public const int MaxMessageBytes = 4 * 1024 * 1024;

    /// <summary>Builds the service.</summary>
    /// <param name="engine">The engine; its rule sets are loaded.</param>
    /// <param name="port">The port; 0 takes a free one.</param>
    /// <param name="rulesFolder">The folder of the rule sets, which is watched for changes; null: the engine's rule sets stay as they are.</param>
    /// <param name="log">Where the log goes; null: standard output, a JSON object a line.</param>
    /// <param name="records">The record of reviews, prepared; null: the service keeps none.</param>
    /// <param name="clock">The clock; null: the system's.</param>
    public static WebApplication Build(CheckEngine engine, int port, string? rulesFolder = null, ILogEventSink? log = null, RecordStore? records = null, TimeProvider? clock = null)
    {
        engine.WarmUp();
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.ConfigureKestrel(kestrel =>
        {
            kestrel.Listen(IPAddress.Loopback, port, listen => listen.Protocols = HttpProtocols.Http2);
            kestrel.AddServerHeader = false;
        });
        builder.Services.AddSerilog(logging => (log is null ? logging.WriteTo.Console(new CompactJsonFormatter()) : logging.WriteTo.Sink(log))
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft.AspNetCore", Serilog.Events.LogEventLevel.Warning)
            .MinimumLevel.Override("Grpc", Serilog.Events.LogEventLevel.Error)
            .Enrich.FromLogContext(),
            // Its own log: two services in one process must not write into each other's.
            preserveStaticLogger: true);
        builder.Services.AddSingleton(new EngineSource(engine));
        builder.Services.AddSingleton(clock ?? TimeProvider.System);
        builder.Services.AddSingleton<RequestInterceptor>();
        if (rulesFolder is not null)
        {
            builder.Services.AddHostedService(services => ActivatorUtilities.CreateInstance<RuleFolderWatcher>(services, rulesFolder));
        }

        if (records is not null)
        {
            builder.Services.AddSingleton(records);
            builder.Services.AddSingleton(services => new ReviewDesk(records, () => services.GetRequiredService<EngineSource>().Current));
        }

        builder.Services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = MaxMessageBytes;
            grpc.EnableDetailedErrors = false;
            grpc.Interceptors.Add<RequestInterceptor>();
        }).AddServiceOptions<ReviewEndpoint>(reviews => reviews.Interceptors.Add<ReviewInterceptor>());
        builder.Services.AddGrpcReflection();
        builder.Services.AddGrpcHealthChecks().AddCheck<RulesReady>("rules");
        var service = builder.Build();
        service.MapGrpcService<PlanCheckEndpoint>();
        service.MapGrpcService<CalculationEndpoint>();
        service.MapGrpcService<RuleCatalogEndpoint>();
        if (records is not null)
        {
            service.MapGrpcService<ReviewEndpoint>();
        }

        service.MapGrpcHealthChecksService();
        service.MapGrpcReflectionService();
        return service;
    }
}
