using System.Collections.Concurrent;
using FoamRules.Exchange;
using FoamRules.Model;
using Grpc.Core;
using Grpc.Net.Client;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Cli.Commands;

/// <summary>Checks many plans on a service over one stream. Answers come as they are ready and find their plan by its number.</summary>
internal sealed class StreamChecker : Checker
{
    // A plan waits for those before it, too.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2), PatienceForTries = TimeSpan.FromMinutes(20);
    private readonly ConcurrentDictionary<long, TaskCompletionSource<Answer>> _waiting = new();
    private readonly SemaphoreSlim _sending = new(1);
    private readonly GrpcChannel _channel;
    private readonly AsyncDuplexStreamingCall<Contract.CheckPlansRequest, Contract.CheckPlansResponse> _call;
    private long _last;
    private volatile Answer? _ended;

    public StreamChecker(Uri server)
    {
        _channel = ServerChannel.Open(server);
        _call = new Contract.PlanCheckService.PlanCheckServiceClient(ServerChannel.Calls(_channel, server)).CheckPlans();
        _ = Receive();
    }

    public override async Task<Answer> Check(PlanRead plan, Request request, CancellationToken cancellation)
    {
        var number = Interlocked.Increment(ref _last);
        var answer = new TaskCompletionSource<Answer>(TaskCreationOptions.RunContinuationsAsynchronously);
        _waiting[number] = answer;
        var patience = request.Remedies ? PatienceForTries : Patience;
        try
        {
            await Send(number, plan, request, cancellation).ConfigureAwait(false);
            return _ended is { } ended ? ended : await answer.Task.WaitAsync(patience, cancellation).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            return new Answer(null, (Said)$"the service did not answer within {patience.TotalSeconds:0} s", []);
        }
        catch (Exception error) when (error is RpcException or InvalidOperationException or ObjectDisposedException)
        {
            return _ended ?? new Answer(null, (Said)$"the service cannot be reached: {error.Message}", []);
        }
        finally
        {
            _waiting.TryRemove(number, out _);
        }
    }

    public override void Dispose()
    {
        _call.Dispose();
        _channel.Dispose();
        _sending.Dispose();
        base.Dispose();
    }

    // A stream takes one message at a time.
    private async Task Send(long number, PlanRead plan, Request request, CancellationToken cancellation)
    {
        await _sending.WaitAsync(cancellation).ConfigureAwait(false);
        try
        {
            await _call.RequestStream.WriteAsync(
                new Contract.CheckPlansRequest
                {
                    Sequence = number,
                    Plan = WithRuleSets(plan, request),
                    Units = (Contract.DisplayUnits)(request.Units ?? 0),
                    Pictures = request.Drawn,
                    Remedies = request.Remedies,
                    Language = request.Language ?? "",
                },
                cancellation).ConfigureAwait(false);
        }
        finally
        {
            _sending.Release();
        }
    }

    private async Task Receive()
    {
        try
        {
            await foreach (var response in _call.ResponseStream.ReadAllAsync().ConfigureAwait(false))
            {
                if (_waiting.TryGetValue(response.Sequence, out var waiting))
                {
                    waiting.TrySetResult(response.Report is { } report
                        ? new Answer(ReportMapper.ToReport(report), null, [])
                        : Refused((StatusCode)response.Error.Code, response.Error.Message, response.Error));
                }
            }

            _ended = new Answer(null, "the service ended the stream", []);
        }
#pragma warning disable CA1031 // Whatever ends the stream is the answer to every plan that still waits.
        catch (Exception error)
#pragma warning restore CA1031
        {
            _ended = error is RpcException refused
                ? Refused(refused.StatusCode, refused.Status.Detail, refused.GetRpcStatus())
                : new Answer(null, (Said)$"the service cannot be reached: {error.Message}", []);
        }

        foreach (var waiting in _waiting.Values)
        {
            waiting.TrySetResult(_ended);
        }
    }
}
