using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using FoamRules.Rules.Engine;
using FoamRules.Service;
using FoamRules.Testing;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Records.Tests;

/// <summary>A service with a store on a free port of this machine, and callers of every role.</summary>
internal sealed class RunningReviews : IAsyncDisposable
{
    public static readonly Metadata Office = Caller("Olga Office", "office");
    public static readonly Metadata Safety = Caller("Sam Safety", "safety-officer");
    public static readonly Metadata Crew = Caller("Chris Crew", "crew-lead");
    public static readonly Metadata Reader = Caller("Rae Reader", "reader");

    private readonly WebApplication _service;
    private readonly GrpcChannel _channel;
    // Two services in turn write into one store: their keys must not meet.
    private readonly string _run = Guid.NewGuid().ToString("N");
    private int _keys;

    private RunningReviews(WebApplication service, StillClock clock)
    {
        _service = service;
        Clock = clock;
        _channel = GrpcChannel.ForAddress(service.Urls.Single(), new GrpcChannelOptions { MaxReceiveMessageSize = null });
        Client = new ReviewService.ReviewServiceClient(_channel.Intercept(new Patient()));
    }

    public ReviewService.ReviewServiceClient Client { get; }

    public StillClock Clock { get; }

    public static async Task<RunningReviews> Start(RecordStore store, StillClock clock, CheckEngine? engine = null)
    {
        var service = ServiceHost.Build(new ServiceSettings { Engine = engine ?? Repository.Engine, Log = new Silence(), Records = store, Clock = clock });
        await service.StartAsync();
        return new RunningReviews(service, clock);
    }

    public static async Task<RunningReviews> Start(TestStore store, CheckEngine? engine = null)
    {
        var clock = new StillClock();
        return await Start(await store.Open(clock), clock, engine);
    }

    public static Metadata Caller(string name, string role) => new() { { "x-actor", name }, { "x-role", role } };

    /// <summary>A key that was not used yet.</summary>
    public string Key() => $"key-{_run}-{Interlocked.Increment(ref _keys)}";

    public async Task<SubmitPlanResponse> Submit(Plan plan) => await Client.SubmitPlanAsync(new SubmitPlanRequest { IdempotencyKey = Key(), Plan = plan }, Office);

    public async Task<ReviewRecord> Get(string review) => (await Client.GetReviewAsync(new GetReviewRequest { ReviewId = review }, Reader)).Review;

    /// <summary>Submits a plan and signs it off.</summary>
    public async Task<string> Signed(Plan plan)
    {
        var submitted = await Submit(plan);
        await SignOff(submitted.Receipt);
        return submitted.Receipt.ReviewId;
    }

    public async Task<SignOffResponse> SignOff(Receipt seen) =>
        await Client.SignOffAsync(new SignOffRequest { IdempotencyKey = Key(), ReviewId = seen.ReviewId, SeenVersion = seen.Sequence }, Safety);

    public async Task<RevisePlanResponse> Revise(string review, long seen, Plan plan) =>
        await Client.RevisePlanAsync(new RevisePlanRequest { IdempotencyKey = Key(), ReviewId = review, SeenVersion = seen, Plan = plan, Why = "as agreed" }, Office);

    public async Task<ReleaseHoldResponse> Release(ReleaseHoldRequest request, Metadata caller) => await Client.ReleaseHoldAsync(request, caller);

    public async Task<CheckPreStartResponse> PreStart(string review, Plan? today = null, Plan? plan = null, Metadata? caller = null) =>
        await Client.CheckPreStartAsync(new CheckPreStartRequest { IdempotencyKey = Key(), ReviewId = review, Today = today, Plan = plan }, caller ?? Crew);

    /// <summary>The release of the one hold of <see cref="Plans.Held"/> by the safety officer.</summary>
    public ReleaseHoldRequest WallRelease(Receipt seen) => new()
    {
        IdempotencyKey = Key(),
        ReviewId = seen.ReviewId,
        SeenVersion = seen.Sequence,
        Requirement = "fill.wall-holds-pressure",
        Subject = new Subject { Kind = SubjectKind.Work, Id = "posts" },
        ActingAs = "safety officer",
        Why = "walls are braced outside",
        Until = Timestamp.FromDateTimeOffset(Clock.GetUtcNow().AddDays(10)),
    };

    public async Task<VerifyLogResponse> Verify(params KnownEntry[] known) => await Client.VerifyLogAsync(new VerifyLogRequest { Known = { known } }, Reader);

    /// <summary>A call must be refused with this status and reason.</summary>
    public static async Task<RpcException> Refused(StatusCode code, string reason, Func<Task> call)
    {
        var error = await Assert.ThrowsAsync<RpcException>(call);
        Assert.Equal((code, reason), (error.StatusCode, error.GetRpcStatus()?.GetDetail<ErrorInfo>()?.Reason ?? error.Status.Detail));
        return error;
    }

    public async ValueTask DisposeAsync()
    {
        _channel.Dispose();
        // Disposed without being stopped, it would leave its hosted services running on what is gone.
        await _service.StopAsync();
        await _service.DisposeAsync();
    }

    // An answer that never comes fails the test that waits for it, and says which call it was.
    private sealed class Patient : Interceptor
    {
        private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);

        public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
            TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncUnaryCallContinuation<TRequest, TResponse> continuation) => continuation(request, Bounded(context));

        public override AsyncServerStreamingCall<TResponse> AsyncServerStreamingCall<TRequest, TResponse>(
            TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncServerStreamingCallContinuation<TRequest, TResponse> continuation) => continuation(request, Bounded(context));

        private static ClientInterceptorContext<TRequest, TResponse> Bounded<TRequest, TResponse>(ClientInterceptorContext<TRequest, TResponse> context)
            where TRequest : class
            where TResponse : class => new(context.Method, context.Host, context.Options.WithDeadline(DateTime.UtcNow + Longest));
    }

    internal sealed class Silence : ILogEventSink
    {
        public void Emit(LogEvent logEvent)
        {
        }
    }
}
