using System.Threading.Channels;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Remedies;
using FoamRules.Rules.Engine;
using Grpc.Core;

namespace FoamRules.Service;

/// <summary>PlanCheckService: reads the message, asks the engine, answers.</summary>
/// <param name="engines">The engine in use; each plan is judged whole by the one that stands when its turn comes.</param>
/// <param name="clock">Written into plans that do not say when they are judged.</param>
/// <param name="drain">Whether the service is ending.</param>
/// <param name="turns">Whose turn it is.</param>
public sealed class PlanCheckEndpoint(EngineSource engines, TimeProvider clock, Drain drain, Turns turns) : PlanCheckService.PlanCheckServiceBase
{
    /// <inheritdoc/>
    public override async Task<CheckPlanResponse> CheckPlan(CheckPlanRequest request, ServerCallContext context)
    {
        var (report, violations) = await turns.Take(
            () => Check(request.Plan, request.Units, request.Pictures, request.Remedies, request.Language, context.CancellationToken), context.CancellationToken).ConfigureAwait(false);
        return report is null ? throw Statuses.Unreadable(violations) : new CheckPlanResponse { Report = report };
    }

    /// <inheritdoc/>
    public override Task<ValidatePlanResponse> ValidatePlan(ValidatePlanRequest request, ServerCallContext context)
    {
        var response = new ValidatePlanResponse();
        var patterns = RequestInterceptor.PatternsOf(request, context);
        response.Violations.AddRange(Read(request.Plan).Violations.Select(violation => violation.In(patterns)).Select(violation => new Violation
        {
            Path = violation.Path,
            Found = violation.Found,
            Allowed = violation.Allowed,
            Remedy = violation.Remedy,
        }));
        return Task.FromResult(response);
    }

    /// <inheritdoc/>
    public override async Task CheckPlans(IAsyncStreamReader<CheckPlansRequest> requestStream, IServerStreamWriter<CheckPlansResponse> responseStream, ServerCallContext context)
    {
        // Bounded: a caller that sends faster than it reads waits, and the service's memory does not grow.
        var waiting = Channel.CreateBounded<CheckPlansRequest>(Environment.ProcessorCount * 2);
        var answers = Channel.CreateBounded<CheckPlansResponse>(Environment.ProcessorCount * 2);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken);
        var workers = Task.WhenAll(Enumerable.Range(0, Environment.ProcessorCount).Select(_ => Work(waiting.Reader, answers.Writer, context, stop.Token)));
        var closing = workers.ContinueWith(done => answers.Writer.Complete(done.Exception?.GetBaseException()), CancellationToken.None, TaskContinuationOptions.None, TaskScheduler.Default);
        var writing = Write(answers.Reader, responseStream, stop.Token);
        try
        {
            var cut = await Read(requestStream, waiting.Writer, stop.Token).ConfigureAwait(false);
            waiting.Writer.Complete();
            await writing.ConfigureAwait(false);
            if (cut)
            {
                throw Statuses.Draining();
            }
        }
        catch
        {
            await stop.CancelAsync().ConfigureAwait(false);
            throw;
        }
        finally
        {
            waiting.Writer.TryComplete();
            await closing.ConfigureAwait(false);
        }
    }

    /// <summary>Reads to the end of the stream, or until the service ends: true then. What was read is still answered.</summary>
    private async Task<bool> Read(IAsyncStreamReader<CheckPlansRequest> requests, ChannelWriter<CheckPlansRequest> waiting, CancellationToken cancellation)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancellation, drain.Begun);
        try
        {
            await foreach (var request in requests.ReadAllAsync(ending.Token).ConfigureAwait(false))
            {
                await waiting.WriteAsync(request, cancellation).ConfigureAwait(false);
            }

            return false;
        }
        catch (Exception error) when (drain.Draining && !cancellation.IsCancellationRequested && error is OperationCanceledException or RpcException { StatusCode: StatusCode.Cancelled })
        {
            return true;
        }
    }

    private static async Task Write(ChannelReader<CheckPlansResponse> answers, IServerStreamWriter<CheckPlansResponse> stream, CancellationToken cancellation)
    {
        await foreach (var answer in answers.ReadAllAsync(cancellation).ConfigureAwait(false))
        {
            await stream.WriteAsync(answer, cancellation).ConfigureAwait(false);
        }
    }

    private async Task Work(ChannelReader<CheckPlansRequest> waiting, ChannelWriter<CheckPlansResponse> answers, ServerCallContext context, CancellationToken cancellation)
    {
        await foreach (var request in waiting.ReadAllAsync(cancellation).ConfigureAwait(false))
        {
            var (report, violations) = await turns.Take(() => Check(request.Plan, request.Units, request.Pictures, request.Remedies, request.Language, cancellation), cancellation).ConfigureAwait(false);
            var answer = new CheckPlansResponse { Sequence = request.Sequence };
            if (report is null)
            {
                answer.Error = Statuses.Unreadable(violations).In(RequestInterceptor.PatternsOf(request, context)).GetRpcStatus();
            }
            else
            {
                answer.Report = report;
            }

            await answers.WriteAsync(answer, cancellation).ConfigureAwait(false);
        }
    }

    private (Report? Report, IReadOnlyList<Model.Violation> Violations) Check(Plan? plan, DisplayUnits units, bool pictures, bool remedies, string language, CancellationToken cancellation)
    {
        var read = Read(plan);
        if (read.Plan is null)
        {
            return (null, read.Violations);
        }

        var options = new CheckOptions(read.Digest, Units: units == DisplayUnits.Unspecified ? null : (Model.DisplayUnits)units, Pictures: pictures, Language: language);
        var engine = engines.Current;
        var result = engine.Check(read.Plan, options, cancellation);
        if (result.Report is not { } report)
        {
            return (null, result.Violations);
        }

        return (ReportMapper.ToMessage(remedies ? new RemedyFinder(engine).Find(read, report, options, cancellation) : report), []);
    }

    private PlanRead Read(Plan? plan) => PlanReader.ReadMessage(plan ?? new Plan(), new ReadOptions(clock.GetUtcNow()));
}
