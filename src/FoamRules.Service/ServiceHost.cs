using FoamRules.Access;
using FoamRules.Pages;
using FoamRules.Records.Reviews;
using FoamRules.Service.Http;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.Extensions.Diagnostics.HealthChecks;
using Serilog;
using Serilog.Formatting.Compact;

namespace FoamRules.Service;

/// <summary>Builds the service: gRPC, pages and HTTP with JSON behind one gate, health, reflection, structured logs.</summary>
public static class ServiceHost
{
    /// <summary>The largest message that is taken, in bytes; a plan of 10,000 plain items fits.</summary>
    public const int MaxMessageBytes = 4 * 1024 * 1024;

    /// <summary>Builds the service.</summary>
    public static WebApplication Build(ServiceSettings settings)
    {
        // The rules are compiled while the rest is put together.
        var rules = Task.Run(settings.Engine.WarmUp);
        var builder = WebApplication.CreateSlimBuilder();
        builder.WebHost.UseKestrelHttpsConfiguration();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(settings.Access, settings.GrpcPort, settings.WebPort, MaxMessageBytes));
        builder.Services.AddSerilog(logging => (settings.Log is null ? logging.WriteTo.Console(new CompactJsonFormatter()) : logging.WriteTo.Sink(settings.Log))
            .ToCollector()
            .MinimumLevel.Information()
            .MinimumLevel.Override("Microsoft.AspNetCore", Serilog.Events.LogEventLevel.Warning)
            // Whoever probes hears it; why rule sets or store fail is logged where they fail.
            .MinimumLevel.Override("Microsoft.Extensions.Diagnostics.HealthChecks", Serilog.Events.LogEventLevel.Fatal)
            .MinimumLevel.Override("Grpc", Serilog.Events.LogEventLevel.Error)
            .Enrich.FromLogContext(),
            // Its own log: two services in one process must not write into each other's.
            preserveStaticLogger: true);
        builder.Services.AddSingleton(new EngineSource(settings.Engine));
        builder.Services.AddSingleton(settings.Clock ?? TimeProvider.System);
        builder.Services.AddSingleton<RequestInterceptor>();
        builder.Services.AddSingleton<Turns>();
        builder.Services.AddAccess(settings.Access);
        builder.Services.AddTelemetry();
        builder.Services.AddSingleton(services => new Drain(settings.NoticeFor, settings.DrainFor, services.GetRequiredService<TimeProvider>()));
        builder.Services.AddHostedService(services => services.GetRequiredService<Drain>());
        builder.Services.Configure<HostOptions>(host => host.ShutdownTimeout = settings.NoticeFor + settings.DrainFor + settings.FinishWithin);
        if (settings.RulesFolder is { } folder)
        {
            builder.Services.AddHostedService(services => ActivatorUtilities.CreateInstance<RuleFolderWatcher>(services, folder));
        }

        if (settings.Records is { } records)
        {
            builder.Services.AddSingleton(records);
            builder.Services.AddSingleton(services => new ReviewDesk(records, () => services.GetRequiredService<EngineSource>().Current));
        }

        builder.Services.AddGrpc(grpc =>
        {
            grpc.MaxReceiveMessageSize = MaxMessageBytes;
            grpc.EnableDetailedErrors = false;
            grpc.CompressionProviders.Clear();
            grpc.CompressionProviders.Add(new BoundedGzip(MaxMessageBytes));
            grpc.Interceptors.Add<RequestInterceptor>();
        }).AddServiceOptions<ReviewEndpoint>(reviews => reviews.Interceptors.Add<ReviewInterceptor>());
        if (settings.ServesWeb)
        {
            builder.Services.AddPages(services => services.GetRequiredService<EngineSource>().Current);
        }

        builder.Services.AddGrpcReflection();
        var checks = builder.Services.AddGrpcHealthChecks(health =>
        {
            // Asked without a name or as readiness: all checks. A service that lives is not started again because its store is away.
            health.Services.Map("readiness", _ => true);
            health.Services.Map("liveness", check => check.Name == "alive");
        }).AddCheck("alive", () => HealthCheckResult.Healthy()).AddCheck<RulesReady>("rules").AddCheck<Drain>("drain");
        if (settings.Records is not null)
        {
            checks.AddCheck<StoreReady>("store");
        }

        var service = builder.Build();
        service.UseAccess();
        if (settings.ServesWeb)
        {
            HttpDoor.UseProblems(service);
            HttpDoor.Map(service, reviews: settings.Records is not null);
        }

        service.MapGrpcService<PlanCheckEndpoint>();
        service.MapGrpcService<CalculationEndpoint>();
        service.MapGrpcService<RuleCatalogEndpoint>();
        if (settings.Records is not null)
        {
            service.MapGrpcService<ReviewEndpoint>();
        }

        if (settings.ServesWeb)
        {
            service.MapPages();
        }

        service.MapGrpcHealthChecksService();
        if (settings.ServesWeb)
        {
            // Alive while it answers at all; ready while it should be sent work.
            service.MapHealthChecks("/healthz/live", new HealthCheckOptions { Predicate = _ => false });
            service.MapHealthChecks("/healthz/ready");
            _ = service.Services.GetRequiredService<ServiceGauges>();
            service.MapPrometheusScrapingEndpoint(Telemetry.MetricsPath);
        }

        service.MapGrpcReflectionService();
        rules.GetAwaiter().GetResult();
        return service;
    }
}
