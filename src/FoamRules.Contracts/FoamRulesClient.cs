using FoamRules.Contracts.V1;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;
using Grpc.Net.Client.Configuration;

namespace FoamRules.Contracts;

/// <summary>What a client is made with.</summary>
public sealed record FoamRulesClientOptions
{
    /// <summary>How long a call may take that names no deadline itself.</summary>
    public TimeSpan Deadline { get; init; } = TimeSpan.FromSeconds(30);

    /// <summary>How long a check may take that tries what would put findings right: each try is a check of its own.</summary>
    public TimeSpan DeadlineForRemedies { get; init; } = TimeSpan.FromMinutes(5);

    /// <summary>How often a call is sent, at most, while the service is not available; from 2 to 5.</summary>
    public int MaxAttempts { get; init; } = 4;

    /// <summary>Who acts on reviews, by name; null: calls say it themselves, or need it not.</summary>
    public string? Actor { get; init; }

    /// <summary>In which capacity: office, safety-officer, crew-lead or reader; null: calls say it themselves, or need it not.</summary>
    public string? Role { get; init; }

    /// <summary>What calls go through, such as a handler with certificates; null: the system's own.</summary>
    public HttpMessageHandler? Handler { get; init; }
}

/// <summary>
/// A connection to a FoamRules service: calls have a deadline, are sent again while the service is not available, and acts on reviews
/// have a key, so that an act that was sent twice is done once.
/// </summary>
public sealed class FoamRulesClient : IDisposable
{
    private readonly GrpcChannel _channel;

    /// <summary>Opens a connection; nothing is sent yet.</summary>
    /// <param name="address">The service's address, such as http://localhost:5080.</param>
    /// <param name="options">What it is made with; null: what the options say by themselves.</param>
    public FoamRulesClient(Uri address, FoamRulesClientOptions? options = null)
    {
        options ??= new FoamRulesClientOptions();
        var again = new MethodConfig
        {
            Names = { MethodName.Default },
            RetryPolicy = new RetryPolicy
            {
                MaxAttempts = options.MaxAttempts,
                InitialBackoff = TimeSpan.FromMilliseconds(200),
                MaxBackoff = TimeSpan.FromSeconds(3),
                BackoffMultiplier = 2,
                RetryableStatusCodes = { StatusCode.Unavailable },
            },
        };
        _channel = GrpcChannel.ForAddress(address, new GrpcChannelOptions
        {
            HttpHandler = options.Handler,
            ServiceConfig = new ServiceConfig { MethodConfigs = { again } },
            // A report with pictures is larger than the 4 MB that a client takes by itself.
            MaxReceiveMessageSize = null,
        });
        var calls = _channel.Intercept(new CallDefaults(options));
        Plans = new PlanCheckService.PlanCheckServiceClient(calls);
        Calculations = new CalculationService.CalculationServiceClient(calls);
        Catalog = new RuleCatalogService.RuleCatalogServiceClient(calls);
        Reviews = new ReviewService.ReviewServiceClient(calls);
    }

    /// <summary>Does a plan hold?</summary>
    public PlanCheckService.PlanCheckServiceClient Plans { get; }

    /// <summary>The calculations, each for itself.</summary>
    public CalculationService.CalculationServiceClient Calculations { get; }

    /// <summary>What is judged, by which sources.</summary>
    public RuleCatalogService.RuleCatalogServiceClient Catalog { get; }

    /// <summary>Reviews. An act without a key gets one in its request, so that the same request can be sent again and is done once.</summary>
    public ReviewService.ReviewServiceClient Reviews { get; }

    /// <summary>Checks one plan. A plan that fails its requirements is a report with findings; one that cannot be read is an exception.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="RpcException">The plan cannot be read (INVALID_ARGUMENT with google.rpc.BadRequest), or the service did not answer.</exception>
    public async Task<Report> CheckAsync(Plan plan, CancellationToken cancellation = default) =>
        (await Plans.CheckPlanAsync(new CheckPlanRequest { Plan = plan }, cancellationToken: cancellation).ConfigureAwait(false)).Report;

    /// <inheritdoc/>
    public void Dispose() => _channel.Dispose();
}
