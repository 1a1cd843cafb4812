using System.Text.Json.Nodes;
using Google.Rpc;
using Microsoft.AspNetCore.Http;
using HttpResponse = Microsoft.AspNetCore.Http.HttpResponse;

namespace FoamRules.Access;

/// <summary>Failures as problem details by RFC 9457: the same at the gate and behind it.</summary>
public static class Problem
{
    private const string ContentType = "application/problem+json";

    // The statuses of HTTP by google/rpc/code.proto, and a title that is the same for every problem of the kind.
    private static readonly Dictionary<Code, (int Status, string Title)> Kinds = new()
    {
        [Code.InvalidArgument] = (400, "What was sent cannot be used"),
        [Code.OutOfRange] = (400, "The calculation does not hold there"),
        [Code.FailedPrecondition] = (400, "It cannot be done as things stand"),
        [Code.Unauthenticated] = (401, "The caller is not known"),
        [Code.PermissionDenied] = (403, "The caller may not do this"),
        [Code.NotFound] = (404, "It is not there"),
        [Code.AlreadyExists] = (409, "The key was used for something else"),
        [Code.Aborted] = (409, "Something happened since"),
        [Code.ResourceExhausted] = (429, "There is no room for it"),
        [Code.Cancelled] = (499, "The caller did not wait"),
        [Code.Unimplemented] = (501, "The service does not do this"),
        [Code.Unavailable] = (503, "The service cannot answer now"),
        [Code.DeadlineExceeded] = (504, "It took too long"),
    };

    /// <summary>The problem of a code of gRPC.</summary>
    /// <param name="code">The code.</param>
    /// <param name="reason">The reason as one word for programs; null: there is none.</param>
    /// <param name="detail">The reason in a sentence.</param>
    public static JsonObject Of(Code code, string? reason, string detail)
    {
        var (status, title) = Kinds.GetValueOrDefault(code, (500, "The service failed"));
        var problem = Create(reason, title, status, detail);
        problem["code"] = NameOf(code);
        if (reason is not null)
        {
            problem["reason"] = reason;
        }

        return problem;
    }

    /// <summary>A problem that only HTTP knows.</summary>
    public static JsonObject Create(string? reason, string title, int status, string detail) => new()
    {
        ["type"] = reason is null ? "about:blank" : $"urn:foamrules:problem:{reason.ToLowerInvariant().Replace('_', '-')}",
        ["title"] = title,
        ["status"] = status,
        ["detail"] = detail,
    };

    /// <summary>The same with its title in another language; the words for programs stay.</summary>
    /// <param name="problem">The problem.</param>
    /// <param name="patterns">The language's words by the English pattern.</param>
    public static JsonObject In(JsonObject problem, IReadOnlyDictionary<string, string> patterns)
    {
        var title = (string)problem["title"]!;
        problem["title"] = patterns.GetValueOrDefault(title, title);
        return problem;
    }

    /// <summary>Answers with a problem.</summary>
    public static Task Write(HttpResponse response, JsonObject problem)
    {
        response.StatusCode = (int)problem["status"]!;
        response.ContentType = ContentType;
        return response.WriteAsync(problem.ToJsonString(), response.HttpContext.RequestAborted);
    }

    // As it is written in the contract of gRPC: INVALID_ARGUMENT.
    private static string NameOf(Code code) => string.Concat(code.ToString().Select((c, i) => i > 0 && char.IsUpper(c) ? $"_{c}" : $"{char.ToUpperInvariant(c)}"));
}
