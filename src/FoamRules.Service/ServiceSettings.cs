using FoamRules.Access;
using FoamRules.Records.Store;
using FoamRules.Rules.Engine;
using Serilog.Core;

namespace FoamRules.Service;

/// <summary>What a service is started with.</summary>
public sealed record ServiceSettings
{
    /// <summary>The engine; its rule sets are loaded.</summary>
    public required CheckEngine Engine { get; init; }

    /// <summary>The port for gRPC; 0 takes a free one.</summary>
    public int GrpcPort { get; init; }

    /// <summary>
    /// The port for pages and for HTTP with JSON; 0 takes a free one; null: neither is served. It is a port of its own because
    /// without TLS a connection cannot say which version of HTTP it speaks. With TLS every port speaks both, so that the port for gRPC is enough.
    /// </summary>
    public int? WebPort { get; init; }

    /// <summary>True where pages and HTTP with JSON are served.</summary>
    public bool ServesWeb => WebPort is not null || Access.Certificate is not null;

    /// <summary>Who may reach the service and how; left out: this machine only, where callers are believed.</summary>
    public AccessSettings Access { get; init; } = new();

    /// <summary>The folder of the rule sets, which is watched for changes; null: the engine's rule sets stay as they are.</summary>
    public string? RulesFolder { get; init; }

    /// <summary>Where the log goes; null: standard output, a JSON object a line.</summary>
    public ILogEventSink? Log { get; init; }

    /// <summary>The record of reviews, prepared; null: the service keeps none.</summary>
    public RecordStore? Records { get; init; }

    /// <summary>How long the service still takes work although it is not ready any more, once it is told to stop, so that a balancer notices.</summary>
    public TimeSpan NoticeFor { get; init; } = TimeSpan.Zero;

    /// <summary>How long it then refuses new work before its ports close, so that callers who come all the same go elsewhere.</summary>
    public TimeSpan DrainFor { get; init; } = TimeSpan.Zero;

    /// <summary>How long it then waits at most for what it has begun.</summary>
    public TimeSpan FinishWithin { get; init; } = TimeSpan.FromSeconds(25);

    /// <summary>The clock; null: the system's.</summary>
    public TimeProvider? Clock { get; init; }
}
