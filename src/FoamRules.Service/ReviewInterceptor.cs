using FoamRules.Access;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Records;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using Google.Protobuf;
using Grpc.Core;
using Grpc.Core.Interceptors;

namespace FoamRules.Service;

/// <summary>
/// What every method of ReviewService asks first (who calls, whether the role may, whether the request can be used) and how it
/// fails: refusals and faults of the store become statuses.
/// </summary>
public sealed class ReviewInterceptor : Interceptor
{
    private static readonly object Key = new();

    /// <summary>Who calls; only within a method of ReviewService.</summary>
    public static Caller CallerOf(ServerCallContext context) => (Caller)context.UserState[Key];

    /// <inheritdoc/>
    public override Task<TResponse> UnaryServerHandler<TRequest, TResponse>(TRequest request, ServerCallContext context, UnaryServerMethod<TRequest, TResponse> continuation) =>
        Answer((IMessage)request, context, () => continuation(request, context));

    /// <inheritdoc/>
    public override Task ServerStreamingServerHandler<TRequest, TResponse>(
        TRequest request, IServerStreamWriter<TResponse> responseStream, ServerCallContext context, ServerStreamingServerMethod<TRequest, TResponse> continuation) =>
        Answer((IMessage)request, context, async () =>
        {
            await continuation(request, responseStream, context).ConfigureAwait(false);
            return true;
        });

    private static async Task<T> Answer<T>(IMessage request, ServerCallContext context, Func<Task<T>> method)
    {
        try
        {
            context.UserState[Key] = Admitted(context);
            var violations = RequestCheck.Of(request);
            if (violations.Count > 0)
            {
                throw Statuses.Impossible(violations);
            }

            return await method().ConfigureAwait(false);
        }
        catch (RefusedException refused)
        {
            throw Statuses.Refused(refused);
        }
        catch (StoreFaultException fault)
        {
            throw Statuses.StoreFault(fault);
        }
    }

    private static Caller Admitted(ServerCallContext context)
    {
        var method = context.Method[(context.Method.LastIndexOf('/') + 1)..];
        var answer = Callers.Of(context.GetHttpContext());
        if (answer.Caller is not { } caller)
        {
            throw Statuses.Caller(answer.Code, answer.Reason, answer.WhyNot!);
        }

        return Permissions.May(caller.Role, method) ? caller
            : throw Statuses.Caller(Google.Rpc.Code.PermissionDenied, "ROLE_MAY_NOT",
                $"a caller with the role {(Said)Words.Of(caller.Role)} may not call {method}; allowed: {Said.Join(", ", Permissions.Of(method).Select(role => (Said)Words.Of(role)))}");
    }
}
