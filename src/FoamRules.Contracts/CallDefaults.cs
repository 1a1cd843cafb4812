using System.Text;
using FoamRules.Contracts.V1;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;

namespace FoamRules.Contracts;

/// <summary>Gives calls what they do not say themselves: a deadline, who acts, and the key of an act on a review.</summary>
internal sealed class CallDefaults(FoamRulesClientOptions options) : Interceptor
{
    private const string Key = "idempotency_key";

    public override AsyncUnaryCall<TResponse> AsyncUnaryCall<TRequest, TResponse>(
        TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncUnaryCallContinuation<TRequest, TResponse> continuation) =>
        continuation(WithKey(request), With(context, DeadlineOf(request)));

    public override TResponse BlockingUnaryCall<TRequest, TResponse>(
        TRequest request, ClientInterceptorContext<TRequest, TResponse> context, BlockingUnaryCallContinuation<TRequest, TResponse> continuation) =>
        continuation(WithKey(request), With(context, DeadlineOf(request)));

    // Streams last as long as they last: they get no deadline of their own.
    public override AsyncServerStreamingCall<TResponse> AsyncServerStreamingCall<TRequest, TResponse>(
        TRequest request, ClientInterceptorContext<TRequest, TResponse> context, AsyncServerStreamingCallContinuation<TRequest, TResponse> continuation) =>
        continuation(request, With(context, null));

    public override AsyncDuplexStreamingCall<TRequest, TResponse> AsyncDuplexStreamingCall<TRequest, TResponse>(
        ClientInterceptorContext<TRequest, TResponse> context, AsyncDuplexStreamingCallContinuation<TRequest, TResponse> continuation) =>
        continuation(With(context, null));

    private TimeSpan DeadlineOf<TRequest>(TRequest request) => request is CheckPlanRequest { Remedies: true } ? options.DeadlineForRemedies : options.Deadline;

    // Written into the caller's own request: whoever sends that again, after whatever failure, sends the same key.
    private static TRequest WithKey<TRequest>(TRequest request)
    {
        if (request is IMessage message && message.Descriptor.FindFieldByName(Key) is { } field && field.Accessor.GetValue(message) is "")
        {
            field.Accessor.SetValue(message, Guid.NewGuid().ToString("N"));
        }

        return request;
    }

    private ClientInterceptorContext<TRequest, TResponse> With<TRequest, TResponse>(ClientInterceptorContext<TRequest, TResponse> context, TimeSpan? deadline)
        where TRequest : class
        where TResponse : class
    {
        var call = context.Options;
        if (deadline is { } patience && call.Deadline is null)
        {
            call = call.WithDeadline(DateTime.UtcNow + patience);
        }

        if (options.Actor is not null || options.Role is not null)
        {
            call = call.WithHeaders(WithCaller(call.Headers ?? []));
        }

        return new ClientInterceptorContext<TRequest, TResponse>(context.Method, context.Host, call);
    }

    private Metadata WithCaller(Metadata given)
    {
        var headers = new Metadata();
        foreach (var entry in given)
        {
            headers.Add(entry);
        }

        if (options.Actor is { } actor && given.Get("x-actor") is null && given.Get("x-actor-bin") is null)
        {
            // Plain metadata carries ASCII only.
            if (Ascii.IsValid(actor))
            {
                headers.Add("x-actor", actor);
            }
            else
            {
                headers.Add("x-actor-bin", Encoding.UTF8.GetBytes(actor));
            }
        }

        if (options.Role is { } role && given.Get("x-role") is null)
        {
            headers.Add("x-role", role);
        }

        return headers;
    }
}
