using System.Text.Json.Nodes;
using FoamRules.Model;
using Google.Rpc;
using Grpc.Core;
using HttpResponse = Microsoft.AspNetCore.Http.HttpResponse;

namespace FoamRules.Service.Http;

/// <summary>Failures as problem details by RFC 9457, with what google.rpc details carry over gRPC.</summary>
internal static class Problem
{
    public const string ContentType = "application/problem+json";

    // The statuses of HTTP by google/rpc/code.proto, and a title that is the same for every problem of the kind.
    private static readonly Dictionary<StatusCode, (int Status, string Title)> Kinds = new()
    {
        [StatusCode.InvalidArgument] = (400, "What was sent cannot be used"),
        [StatusCode.OutOfRange] = (400, "The calculation does not hold there"),
        [StatusCode.FailedPrecondition] = (400, "It cannot be done as things stand"),
        [StatusCode.Unauthenticated] = (401, "The caller is not known"),
        [StatusCode.PermissionDenied] = (403, "The caller may not do this"),
        [StatusCode.NotFound] = (404, "It is not there"),
        [StatusCode.AlreadyExists] = (409, "The key was used for something else"),
        [StatusCode.Aborted] = (409, "Something happened since"),
        [StatusCode.ResourceExhausted] = (429, "There is no room for it"),
        [StatusCode.Cancelled] = (499, "The caller did not wait"),
        [StatusCode.Unimplemented] = (501, "The service does not do this"),
        [StatusCode.Unavailable] = (503, "The service cannot answer now"),
        [StatusCode.DeadlineExceeded] = (504, "It took too long"),
    };

    private static readonly Dictionary<int, (string Title, string Detail)> Statuses = new()
    {
        [404] = ("It is not there", "there is nothing at this path; /openapi.json lists what there is"),
        [405] = ("The method is another one", "this path takes another method of HTTP, named under Allow"),
    };

    /// <summary>The problem that a failed call is answered with.</summary>
    public static JsonObject Of(RpcException error, string? callId)
    {
        var refused = error as HttpRefusedException;
        var (status, title) = refused is not null ? (refused.HttpStatus, refused.Title) : Kinds.GetValueOrDefault(error.StatusCode, (500, "The service failed"));
        var info = refused is not null ? new ErrorInfo { Reason = refused.Reason } : error.GetRpcStatus()?.GetDetail<ErrorInfo>();
        var unusable = error as UnusableException;
        var detail = unusable is null ? error.Status.Detail : unusable.Violations.Count == 1 ? "one value is impossible or cannot be read; nothing was done" : $"{unusable.Violations.Count} values are impossible or cannot be read; nothing was done";
        var problem = Create(info?.Reason, title, status, detail);
        problem["code"] = NameOf(error.StatusCode);
        if (info is not null)
        {
            problem["reason"] = info.Reason;
            if (unusable is null && info.Metadata.Count > 0)
            {
                problem["metadata"] = new JsonObject(info.Metadata.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => KeyValuePair.Create(pair.Key, (JsonNode?)pair.Value)));
            }
        }

        if (callId is not null)
        {
            problem["callId"] = callId;
        }

        if (unusable is not null)
        {
            problem["violations"] = new JsonArray([.. unusable.Violations.Select(Of)]);
        }

        return problem;
    }

    /// <summary>The problem of a request that never became a call: no such path, another method.</summary>
    public static JsonObject Of(int status)
    {
        var (title, detail) = Statuses.GetValueOrDefault(status, ("The request cannot be answered", "see the status of HTTP"));
        return Create(null, title, status, detail);
    }

    /// <summary>A problem that only HTTP knows.</summary>
    public static JsonObject Create(string? reason, string title, int status, string detail) => new()
    {
        ["type"] = reason is null ? "about:blank" : $"urn:foamrules:problem:{reason.ToLowerInvariant().Replace('_', '-')}",
        ["title"] = title,
        ["status"] = status,
        ["detail"] = detail,
    };

    /// <summary>Answers with a problem.</summary>
    public static Task Write(HttpResponse response, JsonObject problem)
    {
        response.StatusCode = (int)problem["status"]!;
        response.ContentType = ContentType;
        return response.WriteAsync(problem.ToJsonString(), response.HttpContext.RequestAborted);
    }

    private static JsonObject Of(Violation violation)
    {
        var told = new JsonObject
        {
            ["path"] = violation.Path,
            ["found"] = violation.Found,
            ["allowed"] = violation.Allowed,
            ["remedy"] = violation.Remedy,
        };
        if (violation.Line > 0)
        {
            told["line"] = violation.Line;
            told["column"] = violation.Column;
        }

        return told;
    }

    // As it is written in the contract of gRPC: INVALID_ARGUMENT.
    private static string NameOf(StatusCode code) => string.Concat(code.ToString().Select((c, i) => i > 0 && char.IsUpper(c) ? $"_{c}" : $"{char.ToUpperInvariant(c)}"));
}
