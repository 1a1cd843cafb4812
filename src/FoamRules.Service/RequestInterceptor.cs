using System.Diagnostics;
using FoamRules.Access;
using FoamRules.Exchange;
using FoamRules.Model;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Serilog.Context;

namespace FoamRules.Service;

/// <summary>
/// Gives each call an id, logs it once with its outcome and never with its plan, and turns whatever fails inside into
/// INTERNAL with that id. Without it a failure would reach the caller as UNKNOWN and could not be found in the log.
/// </summary>
/// <remarks>While the service ends it refuses new calls.</remarks>
/// <param name="log">The log.</param>
/// <param name="drain">Whether the service is ending.</param>
public sealed class RequestInterceptor(ILogger<RequestInterceptor> log, Drain drain) : Interceptor
{
    private const string Header = "x-request-id";
    private static readonly object Key = new();

    /// <summary>The id of a call; null before it has one.</summary>
    public static string? IdOf(ServerCallContext context) => context.UserState.TryGetValue(Key, out var id) ? (string)id : null;

    /// <inheritdoc/>
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation) =>
        Watch(request, context, isStream: false, () => continuation(request, context));

    /// <inheritdoc/>
    public override Task DuplexStreamingServerHandler<TRequest, TResponse>(
        IAsyncStreamReader<TRequest> requestStream, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, DuplexStreamingServerMethod<TRequest, TResponse> continuation) =>
        Watch(null, context, isStream: true, async () =>
        {
            await continuation(requestStream, responseStream, context).ConfigureAwait(false);
            return true;
        });

    /// <inheritdoc/>
    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        Watch(request, context, isStream: true, async () =>
        {
            await continuation(request, responseStream, context).ConfigureAwait(false);
            return true;
        });

    private async Task<T> Watch<T>(object? request, ServerCallContext context, bool isStream, Func<Task<T>> call)
    {
        var id = NewId(context);
        context.UserState[Key] = id;
        using var scope = LogContext.PushProperty("CallId", id);
        var started = Stopwatch.GetTimestamp();
        if (isStream)
        {
            await context.WriteResponseHeadersAsync(new Metadata { { Header, id } }).ConfigureAwait(false);
        }
        else
        {
            // With the answer and not before: what dies between the two has begun to answer, and is not sent again.
            context.GetHttpContext().Response.Headers[Header] = id;
        }

        try
        {
            // Who asks for the health is to hear that the service is ending.
            if (drain.Draining && !context.Method.StartsWith("/grpc.health.", StringComparison.Ordinal))
            {
                throw Statuses.Draining();
            }

            var answer = await call().ConfigureAwait(false);
            ServiceLog.Answered(log, context.Method, StatusCode.OK, Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            return answer;
        }
        catch (RpcException error)
        {
            ServiceLog.Answered(log, context.Method, error.StatusCode, Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            if (error is ToldException told && PatternsOf(request, context) is { Count: > 0 } patterns)
            {
                throw told.In(patterns);
            }

            throw;
        }
        catch (OperationCanceledException) when (context.CancellationToken.IsCancellationRequested)
        {
            var (code, why) = context.GetHttpContext().Features.Get<LongestTime>() is { IsOver: true } longest
                ? (StatusCode.DeadlineExceeded, (Said)$"the service gives a call no more than {longest.Limit.TotalSeconds:0.###} seconds; ask for less at once")
                : (context.Deadline <= DateTime.UtcNow ? StatusCode.DeadlineExceeded : StatusCode.Cancelled, "the caller did not wait for the answer");
            ServiceLog.Answered(log, context.Method, code, Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            throw new RpcException(new Status(code, why.In(PatternsOf(request, context))));
        }
#pragma warning disable CA1031 // The outermost place in the service: whatever it is, the caller gets INTERNAL and the log gets the rest.
        catch (Exception error)
#pragma warning restore CA1031
        {
            ServiceLog.Failed(log, error, context.Method, Stopwatch.GetElapsedTime(started).TotalMilliseconds);
            throw Statuses.Internal(id).In(PatternsOf(request, context));
        }
    }

    /// <summary>The words of the language in which a call is answered: that of the request, where it has one, or what its metadata prefers; none for English.</summary>
    /// <param name="request">The request; null: there are many.</param>
    /// <param name="context">The call.</param>
    public static IReadOnlyDictionary<string, string> PatternsOf(object? request, ServerCallContext context) =>
        request is IMessage message && message.Descriptor.FindFieldByName(AskedLanguage.Field)?.Accessor.GetValue(message) is string { Length: > 0 } tag
            ? ViolationWords.Of(tag)
            : AskedLanguage.PatternsOf(context.GetHttpContext());

    // A caller's own id is kept, so that both logs name the same call; anything but a plain short word is not repeated.
    private static string NewId(ServerCallContext context)
    {
        var given = context.RequestHeaders.GetValue(Header);
        return given is { Length: > 0 and <= 64 } && given.All(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.') ? given : Guid.CreateVersion7().ToString("N");
    }
}
