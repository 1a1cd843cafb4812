using System.Globalization;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>Refuses a request at the door, in the words of the protocol that it speaks.</summary>
internal static class Refusal
{
    private const string Domain = "foamrules.v1";
    private static readonly JsonFormatter Json = new(new JsonFormatter.Settings(false, TypeRegistry.FromMessages(ErrorInfo.Descriptor, RetryInfo.Descriptor)));

    /// <summary>True for gRPC.</summary>
    public static bool IsGrpc(HttpContext context) => context.Request.ContentType?.StartsWith("application/grpc", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>Answers the refusal; nothing else may have been answered.</summary>
    public static Task Write(HttpContext context, Code code, string reason, string message, TimeSpan? again = null)
    {
        var status = new Status { Code = (int)code, Message = message };
        status.Details.Add(Any.Pack(new ErrorInfo { Domain = Domain, Reason = reason }));
        var response = context.Response;
        if (again is { } wait)
        {
            status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(wait) }));
            response.Headers.RetryAfter = Math.Ceiling(wait.TotalSeconds).ToString(CultureInfo.InvariantCulture);
        }

        if (IsGrpc(context))
        {
            response.StatusCode = StatusCodes.Status200OK;
            response.ContentType = "application/grpc";
            response.Headers["grpc-status"] = ((int)code).ToString(CultureInfo.InvariantCulture);
            response.Headers["grpc-message"] = Uri.EscapeDataString(message);
            response.Headers["grpc-status-details-bin"] = Convert.ToBase64String(status.ToByteArray()).TrimEnd('=');
            return Task.CompletedTask;
        }

        response.StatusCode = code switch
        {
            Code.Unauthenticated => StatusCodes.Status401Unauthorized,
            Code.PermissionDenied => StatusCodes.Status403Forbidden,
            Code.ResourceExhausted => StatusCodes.Status429TooManyRequests,
            _ => StatusCodes.Status400BadRequest,
        };
        if (code == Code.Unauthenticated)
        {
            response.Headers.WWWAuthenticate = "Bearer";
        }

        response.ContentType = "application/json";
        return response.WriteAsync(Json.Format(status));
    }
}
