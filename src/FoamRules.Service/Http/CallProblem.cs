using System.Text.Json.Nodes;
using FoamRules.Access;
using FoamRules.Model;
using Google.Rpc;
using Grpc.Core;

namespace FoamRules.Service.Http;

/// <summary>The problem of a call that failed, with what google.rpc details carry over gRPC.</summary>
internal static class CallProblem
{
    private static readonly Dictionary<int, (string Title, Said Detail)> Statuses = new()
    {
        [404] = ("It is not there", "there is nothing at this path; /openapi.json lists what there is"),
        [405] = ("The method is another one", "this path takes another method of HTTP, named under Allow"),
    };

    /// <summary>The problem that a failed call is answered with.</summary>
    /// <param name="error">What was thrown.</param>
    /// <param name="callId">The call's id; null: it has none.</param>
    /// <param name="patterns">The words of the language by their English pattern; none: English.</param>
    public static JsonObject Of(RpcException error, string? callId, IReadOnlyDictionary<string, string> patterns)
    {
        error = (error as ToldException)?.In(patterns) ?? error;
        var refused = error as HttpRefusedException;
        var info = refused is not null ? new ErrorInfo { Reason = refused.Reason } : error.GetRpcStatus()?.GetDetail<ErrorInfo>();
        var unusable = error as UnusableException;
        var detail = unusable is null ? Said.Name(error.Status.Detail)
            : unusable.Violations.Count == 1 ? (Said)"one value is impossible or cannot be read; nothing was done"
            : $"{unusable.Violations.Count} values are impossible or cannot be read; nothing was done";
        var problem = Problem.Of((Code)error.StatusCode, info?.Reason, detail.In(patterns));
        if (refused is not null)
        {
            (problem["status"], problem["title"]) = (refused.HttpStatus, refused.Title);
        }

        if (unusable is null && info is { Metadata.Count: > 0 })
        {
            problem["metadata"] = new JsonObject(info.Metadata.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => KeyValuePair.Create(pair.Key, (JsonNode?)pair.Value)));
        }

        if (callId is not null)
        {
            problem["callId"] = callId;
        }

        if (unusable is not null)
        {
            problem["violations"] = new JsonArray([.. unusable.Violations.Select(Of)]);
        }

        return Problem.In(problem, patterns);
    }

    /// <summary>The problem of a request that never became a call: no such path, another method.</summary>
    public static JsonObject Of(int status, IReadOnlyDictionary<string, string> patterns)
    {
        var (title, detail) = Statuses.GetValueOrDefault(status, ("The request cannot be answered", "see the status of HTTP"));
        return Problem.In(Problem.Create(null, title, status, detail.In(patterns)), patterns);
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
}
