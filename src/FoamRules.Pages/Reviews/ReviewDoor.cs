using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Pages.Site;
using FoamRules.Records;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using Google.Protobuf;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Said = FoamRules.Model.Said;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>Why something was not done, or cannot be shown.</summary>
/// <param name="Status">The status code of the answer.</param>
/// <param name="Reason">The reason as one word, the same as over gRPC.</param>
/// <param name="Message">The reason in the record's own words; none where the page's words say all.</param>
/// <param name="Violations">What is wrong with what was sent.</param>
public sealed record Trouble(int Status, string Reason, Said? Message, IReadOnlyList<Violation> Violations)
{
    /// <summary>Who may, where the role may not.</summary>
    public IReadOnlyList<Role> Allowed { get; init; } = [];

    /// <summary>True where something happened since the page was opened.</summary>
    public bool MovedOn => Reason is "REVIEW_MOVED_ON" or "LOST_RACE";

    /// <summary>True where the key has been used up: what is sent next needs another.</summary>
    public bool KeyIsUsed => Reason == "KEY_USED_FOR_ANOTHER_REQUEST";

    /// <summary>The reason in the words of a page.</summary>
    public string In(PageWords words)
    {
        var key = $"refused-{Reason.ToLowerInvariant().Replace('_', '-')}";
        return words.Texts.ContainsKey(key)
            ? words[key, ("allowed", string.Join(", ", Allowed.Select(role => words[$"role-{WhoCalls.WordOf(role)}"])))]
            : words["refused-other"];
    }
}

/// <summary>
/// The door between pages and record, as ReviewInterceptor is for gRPC: who calls, whether the role may, whether the request can be
/// used, and how it fails.
/// </summary>
internal static class ReviewDoor
{
    /// <summary>Asks the desk for something.</summary>
    /// <param name="http">The request to the page.</param>
    /// <param name="method">The method of ReviewService whose permissions hold.</param>
    /// <param name="request">What is asked.</param>
    /// <param name="act">Asks it.</param>
    public static async Task<(T? Answer, Trouble? Trouble)> Ask<T>(HttpContext http, string method, IMessage request, Func<ReviewDesk, Caller, Task<T>> act)
        where T : class
    {
        if (WhyNot(http, method) is { } trouble)
        {
            return (null, trouble);
        }

        if (RequestCheck.Of(request) is { Count: > 0 } violations)
        {
            return (null, new Trouble(StatusCodes.Status422UnprocessableEntity, "REQUEST_UNREADABLE", null, violations));
        }

        try
        {
            return (await act(http.RequestServices.GetRequiredService<ReviewDesk>(), WhoCalls.Of(http)!).ConfigureAwait(false), null);
        }
        catch (RefusedException refused)
        {
            return (null, new Trouble(StatusOf(refused), refused.Reason, refused.Told, refused.Violations));
        }
        catch (StoreFaultException fault)
        {
            // What the store says itself is for the log, not for whoever calls.
            return (null, new Trouble(StatusCodes.Status503ServiceUnavailable, fault.Kind switch { StoreFaultKind.Full => "STORE_FULL", StoreFaultKind.Damaged => "STORE_DAMAGED", _ => "STORE_UNAVAILABLE" }, null, []));
        }
    }

    /// <summary>Why this caller may not call a method; null: the caller may.</summary>
    public static Trouble? WhyNot(HttpContext http, string method) =>
        WhoCalls.Of(http) is not { } caller ? new Trouble(StatusCodes.Status401Unauthorized, "CALLER_NOT_STATED", null, [])
        : Permissions.May(caller.Role, method) ? null
        : new Trouble(StatusCodes.Status403Forbidden, "ROLE_MAY_NOT", null, []) { Allowed = Permissions.Of(method) };

    private static int StatusOf(RefusedException refused) => refused.Why switch
    {
        Refused.NotFound => StatusCodes.Status404NotFound,
        Refused.NotAllowed => StatusCodes.Status403Forbidden,
        Refused.Unusable => StatusCodes.Status422UnprocessableEntity,
        _ => StatusCodes.Status409Conflict,
    };
}
