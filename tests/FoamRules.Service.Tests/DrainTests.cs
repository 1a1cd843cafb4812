using System.Net;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Google.Rpc;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests;

/// <summary>The service told to stop, while calls are open.</summary>
public sealed class DrainTests : IAsyncLifetime, ILogEventSink
{
    // Far longer than the test: it is cut short by whoever stops the service.
    private static readonly TimeSpan s_patience = TimeSpan.FromMinutes(2);
    private readonly CancellationTokenSource _noMoreWaiting = new();
    private WebApplication _service = null!;
    private GrpcChannel _channel = null!;
    private HttpClient _web = null!;

    public ValueTask InitializeAsync() => ValueTask.CompletedTask;

    private async Task Start(TimeSpan notice)
    {
        _service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, WebPort = 0, Log = this, NoticeFor = notice, DrainFor = s_patience });
        await _service.StartAsync();
        var urls = _service.Urls.ToList();
        _channel = GrpcChannel.ForAddress(urls[0]);
        _web = new HttpClient { BaseAddress = new Uri(urls[1]) };
    }

    public async ValueTask DisposeAsync()
    {
        _channel.Dispose();
        _web.Dispose();
        await _service.DisposeAsync();
        _noMoreWaiting.Dispose();
    }

    void ILogEventSink.Emit(LogEvent logEvent)
    {
    }

    [Fact]
    public async Task A_service_that_ends_is_alive_but_not_ready_refuses_new_work_and_answers_what_it_took()
    {
        await Start(TimeSpan.Zero);
        var checks = new PlanCheckService.PlanCheckServiceClient(_channel);
        var health = new Health.HealthClient(_channel);
        var plan = PlanReader.ReadText(await File.ReadAllTextAsync(Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), TestContext.Current.CancellationToken), null, new ReadOptions(DateTimeOffset.UnixEpoch)).Message;
        Assert.Equal(HttpStatusCode.OK, await Status("/healthz/ready"));
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await health.CheckAsync(new HealthCheckRequest())).Status);
        using var open = checks.CheckPlans(deadline: DateTime.UtcNow + s_patience);
        await open.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 7, Plan = plan }, TestContext.Current.CancellationToken);
        Assert.True(await open.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        await open.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = 8, Plan = plan }, TestContext.Current.CancellationToken);
        Assert.True(await open.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        Assert.Equal(8, open.ResponseStream.Current.Sequence);

        var stopping = _service.StopAsync(_noMoreWaiting.Token);

        // The caller has not ended its stream; the service ends it, and says why.
        var ended = await Assert.ThrowsAsync<RpcException>(() => open.ResponseStream.MoveNext(TestContext.Current.CancellationToken));
        Draining(ended);
        Draining(await Assert.ThrowsAsync<RpcException>(async () => await checks.CheckPlanAsync(new CheckPlanRequest { Plan = plan })));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, await Status("/healthz/ready"));
        Assert.Equal(HttpStatusCode.OK, await Status("/healthz/live"));
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.NotServing, (await health.CheckAsync(new HealthCheckRequest())).Status);
        Assert.Contains("foamrules_draining{otel_scope_name=\"FoamRules\"} 1", await _web.GetStringAsync(new Uri(Telemetry.MetricsPath, UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);

        await _noMoreWaiting.CancelAsync();
        await stopping;
        await Assert.ThrowsAsync<HttpRequestException>(() => Status("/healthz/live"));
    }

    [Fact]
    public async Task Until_a_balancer_has_noticed_a_service_that_ends_takes_work_although_it_is_not_ready()
    {
        await Start(s_patience);
        var stopping = _service.StopAsync(_noMoreWaiting.Token);

        Assert.Equal(HttpStatusCode.ServiceUnavailable, await Status("/healthz/ready"));
        var checks = new PlanCheckService.PlanCheckServiceClient(_channel);
        Assert.NotNull(await checks.ValidatePlanAsync(new ValidatePlanRequest { Plan = new Plan() }, cancellationToken: TestContext.Current.CancellationToken));

        await _noMoreWaiting.CancelAsync();
        await stopping;
        await Assert.ThrowsAsync<HttpRequestException>(() => Status("/healthz/live"));
    }

    private static void Draining(RpcException error)
    {
        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
        Assert.Equal("DRAINING", error.GetRpcStatus()!.GetDetail<ErrorInfo>()!.Reason);
        Assert.NotNull(error.GetRpcStatus()!.GetDetail<RetryInfo>());
    }

    private async Task<HttpStatusCode> Status(string path)
    {
        using var answer = await _web.GetAsync(new Uri(path, UriKind.Relative), TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }
}
