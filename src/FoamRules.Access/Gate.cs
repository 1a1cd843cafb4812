using System.Net;
using FoamRules.Model;
using Google.Rpc;
using Grpc.AspNetCore.Server;
using Grpc.Core;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace FoamRules.Access;

/// <summary>
/// The gate before every door: refuses requests that a foreign web page has a browser make, asks who calls, and shortens the time
/// that a call may take. Only the health is told to anybody, and where keys are taken, a page asks for one.
/// </summary>
/// <param name="settings">Who may reach the service and how.</param>
/// <param name="prover">Proves who calls.</param>
/// <param name="log">The log; what a caller shows to prove itself is never written there.</param>
public sealed partial class Gate(AccessSettings settings, Prover prover, ILogger<Gate> log) : IMiddleware
{
    /// <summary>The page that takes an API key from a person.</summary>
    public const string SignIn = "/sign-in";

    /// <summary>The field that tells that page where to go back to.</summary>
    public const string BackField = "back";

    private static readonly string[] OfThisMachine = ["localhost", "127.0.0.1", "[::1]"];

    /// <summary>True for what anybody may ask.</summary>
    public static bool IsHealth(PathString path) => path.StartsWithSegments("/grpc.health.v1.Health", StringComparison.Ordinal) || path.StartsWithSegments("/healthz", StringComparison.Ordinal);

    /// <inheritdoc/>
    public async Task InvokeAsync(HttpContext context, RequestDelegate next)
    {
        if (WhyForeign(context) is { } foreign)
        {
            await Refuse(context, Code.PermissionDenied, "FOREIGN_PAGE", foreign).ConfigureAwait(false);
            return;
        }

        if (settings.AsksForIdentity && !IsHealth(context.Request.Path))
        {
            var (identity, whyNot) = await prover.Prove(context).ConfigureAwait(false);
            if (identity is null && IsSignIn(context.Request.Path))
            {
                await next(context).ConfigureAwait(false);
                return;
            }

            if (identity is null && settings.ApiKeys is not null && IsPage(context))
            {
                context.Response.Redirect($"{SignIn}{QueryString.Create(BackField, $"{context.Request.Path}{context.Request.QueryString}")}");
                return;
            }

            if (identity is null)
            {
                await Refuse(context, Code.Unauthenticated, "NOT_PROVEN", $"{whyNot}; nothing was done").ConfigureAwait(false);
                return;
            }

            context.Features.Set(identity);
        }

        CapTime(context);
        await next(context).ConfigureAwait(false);
    }

    // A browser sends a client certificate, and reaches this machine's own ports, for any page that asks it to. Where callers are
    // believed, another name for this machine is one that somebody else's name server gave it.
    private Said? WhyForeign(HttpContext context)
    {
        var request = context.Request;
        if (!settings.AsksForIdentity && !OfThisMachine.Contains(request.Host.Host, StringComparer.OrdinalIgnoreCase) && !IsHealth(request.Path))
        {
            return $"the service is called by a name that is not this machine's own; call it by one of {string.Join(", ", OfThisMachine)}";
        }

        var foreign = request.Headers["Sec-Fetch-Site"].FirstOrDefault() is "cross-site" or "same-site"
            || (request.Headers.Origin.FirstOrDefault() is { } origin && !string.Equals(origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase));
        return foreign && !HttpMethods.IsGet(request.Method) && !HttpMethods.IsHead(request.Method) ? (Said)"the request was made by a page of another site; nothing was done" : null;
    }

    // What is needed to sign in: the page itself, and how it looks.
    private bool IsSignIn(PathString path) => settings.ApiKeys is not null && (path == SignIn || path.StartsWithSegments("/assets"));

    private static bool IsPage(HttpContext context) => HttpMethods.IsGet(context.Request.Method) && RefusalPage.IsAsked(context);

    // A caller's own deadline stands where it is shorter. The server keeps this one, whether or not the caller still listens.
    private void CapTime(HttpContext context)
    {
        if (Refusal.IsGrpc(context) && context.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>() is { } method && !EndsWithTheConnection(context.Request.Path))
        {
            var longest = new LongestTime(method.Method.Type == MethodType.Unary ? settings.Limits.LongestCall : settings.Limits.LongestStream, context.RequestAborted);
            context.Response.RegisterForDispose(longest);
            context.Features.Set(longest);
            context.RequestAborted = longest.OverOrAborted;
        }
    }

    // Watching the health, and asking for the contract.
    private static bool EndsWithTheConnection(PathString path) => IsHealth(path) || path.StartsWithSegments("/grpc.reflection", StringComparison.Ordinal);

    private Task Refuse(HttpContext context, Code code, string reason, Said message)
    {
        LogRefused(log, context.Request.Path, context.Connection.RemoteIpAddress, reason, message.ToString());
        return Refusal.Write(context, code, reason, message);
    }

    [LoggerMessage(EventId = 40, EventName = "RequestRefused", Level = LogLevel.Warning, Message = "{Path} from {From} refused: {Reason}: {Why}")]
    private static partial void LogRefused(ILogger log, string path, IPAddress? from, string reason, string why);
}
