using System.Diagnostics.Metrics;
using FoamRules.Rules.Engine;
using Npgsql;
using OpenTelemetry.Metrics;
using OpenTelemetry.Resources;
using OpenTelemetry.Trace;
using Serilog;

namespace FoamRules.Service;

/// <summary>
/// What is seen of the service from outside: metrics at <c>/metrics</c> on the web port, and traces, metrics and logs over OTLP where the
/// environment names a collector by the variables of OpenTelemetry (<c>OTEL_EXPORTER_OTLP_ENDPOINT</c> and its kin). Neither
/// plans nor names of people are in any of them.
/// </summary>
public static class Telemetry
{
    /// <summary>Where Prometheus asks.</summary>
    public const string MetricsPath = "/metrics";

    private const string ServiceName = "foamrules";

    /// <summary>True where the environment names a collector.</summary>
    private static bool HasCollector => !string.IsNullOrWhiteSpace(Environment.GetEnvironmentVariable("OTEL_EXPORTER_OTLP_ENDPOINT"));

    /// <summary>Adds traces and metrics to a service.</summary>
    public static void AddTelemetry(this IServiceCollection services)
    {
        services.AddSingleton<ServiceGauges>();
        var telemetry = services.AddOpenTelemetry()
            .ConfigureResource(resource => resource.AddService(ServiceName, serviceVersion: typeof(Telemetry).Assembly.GetName().Version?.ToString(3)))
            .WithMetrics(metrics =>
            {
                metrics.AddMeter(CheckTelemetry.Name, "Microsoft.AspNetCore.Hosting", "Microsoft.AspNetCore.Server.Kestrel", "Npgsql").AddRuntimeInstrumentation().AddPrometheusExporter();
                if (HasCollector)
                {
                    metrics.AddOtlpExporter();
                }
            });
        if (HasCollector)
        {
            telemetry.WithTracing(traces => traces.AddSource(CheckTelemetry.Name).AddAspNetCoreInstrumentation().AddNpgsql().AddOtlpExporter());
        }
    }

    /// <summary>Sends the log to the collector, too, where there is one.</summary>
    public static LoggerConfiguration ToCollector(this LoggerConfiguration logging) =>
        HasCollector ? logging.WriteTo.OpenTelemetry(sink => sink.ResourceAttributes["service.name"] = ServiceName) : logging;
}

/// <summary>What the service is in, for whoever reads its metrics: the rule sets in use, and whether it is ending.</summary>
public sealed class ServiceGauges : IDisposable
{
    private readonly Meter _meter = new(CheckTelemetry.Name);

    /// <summary>Begins to answer.</summary>
    /// <param name="engines">The engine in use.</param>
    /// <param name="drain">Whether it is ending.</param>
    public ServiceGauges(EngineSource engines, Drain drain)
    {
        _meter.CreateObservableGauge("foamrules.rule_sets",
            () => engines.Current.Library.RuleSets.Values.Select(set => new Measurement<int>(1, new("rule_set", set.Id), new("version", set.Head.Version), new("digest", set.Digest[..12]))),
            description: "The rule sets in use, one each, by id, version and the beginning of their digest.");
        _meter.CreateObservableGauge("foamrules.rule_sets.refused", () => engines.State.Refused?.Violations.Count ?? 0,
            description: "What is wrong with a newer state of the rule sets' folder, which was refused; 0: nothing.");
        _meter.CreateObservableGauge("foamrules.draining", () => drain.Draining ? 1 : 0, description: "1 while the service ends and refuses new work.");
    }

    /// <inheritdoc/>
    public void Dispose() => _meter.Dispose();
}
