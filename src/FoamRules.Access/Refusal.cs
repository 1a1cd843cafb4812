using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>Refuses a request at the door, in the words of the protocol that it speaks: a status of gRPC, or a problem of HTTP.</summary>
internal static class Refusal
{
    private const string Domain = "foamrules.v1";

    /// <summary>True for gRPC.</summary>
    public static bool IsGrpc(HttpContext context) => context.Request.ContentType?.StartsWith("application/grpc", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Answers the refusal in the language that is asked for; nothing else may have been answered.</summary>
    public static Task Write(HttpContext context, Code code, string reason, Said words, TimeSpan? again = null)
    {
        var patterns = AskedLanguage.PatternsOf(context);
        var message = words.In(patterns);
        var response = context.Response;
        if (again is { } wait)
        {
            response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }

        if (IsGrpc(context))
        {
            var status = new Status { Code = (int)code, Message = message, Details = { Any.Pack(new ErrorInfo { Domain = Domain, Reason = reason }) } };
            if (again is { } delay)
            {
                status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(delay) }));
            }

            response.StatusCode = StatusCodes.Status200OK;
            response.ContentType = "application/grpc";
            response.Headers["grpc-status"] = ((int)code).ToString(CultureInfo.InvariantCulture);
            response.Headers["grpc-message"] = Uri.EscapeDataString(message);
            response.Headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray()).TrimEnd('=');
            return Task.CompletedTask;
        }

        if (code == Code.Unauthenticated)
        {
            response.Headers.WWWAuthenticate = "Bearer";
        }

        var problem = Problem.In(Problem.Of(code, reason, message), patterns);
        return RefusalPage.IsAsked(context) ? RefusalPage.Write(context, problem, again) : Problem.Write(response, problem);
    }
}
