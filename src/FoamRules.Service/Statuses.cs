using FoamRules.Model;
using FoamRules.Records;
using FoamRules.Records.Store;
using Google.Protobuf.WellKnownTypes;
using Google.Rpc;

namespace FoamRules.Service;

/// <summary>The statuses that the service answers, with google.rpc details, as what is thrown.</summary>
internal static class Statuses
{
    private const string Domain = "foamrules.v1";

    // Details travel in trailers, which many proxies cap at 8 KB; ValidatePlan answers all violations in its body.
    private const int MostViolations = 20;

    /// <summary>The plan cannot be read: INVALID_ARGUMENT with the violations by field path.</summary>
    public static UnusableException Unreadable(IReadOnlyList<Violation> violations) => Invalid("PLAN_UNREADABLE", "the plan", "; ValidatePlan answers all", violations);

    /// <summary>What is asked is missing or impossible: INVALID_ARGUMENT with the violations by field path.</summary>
    public static UnusableException Impossible(IReadOnlyList<Violation> violations) => Invalid("REQUEST_UNREADABLE", "the request", "", violations);

    /// <summary>The formula does not hold for an input: OUT_OF_RANGE with the range.</summary>
    public static ToldException OutOfRange(Refusal refusal)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = "CALCULATION_OUT_OF_RANGE" };
        info.Metadata["input"] = refusal.Input;
        info.Metadata["found"] = MeasureText.Show(refusal.Found, Model.DisplayUnits.Si);
        info.Metadata["allowed"] = refusal.Allowed;
        info.Metadata["why"] = refusal.Why;
        return Told(Code.OutOfRange, refusal.Sentence(Model.DisplayUnits.Si), info);
    }

    /// <summary>There is nothing of this id: NOT_FOUND with what was looked for.</summary>
    public static ToldException NotFound(string kind, string id, Said remedy)
    {
        var shown = Short(id);
        return Told(Code.NotFound, $"there is no {(Said)kind} `{shown}`; {remedy}", new ErrorInfo { Domain = Domain, Reason = "NOT_FOUND" }, new ResourceInfo { ResourceType = kind, ResourceName = shown });
    }

    /// <summary>The caller is not known, or may not do it.</summary>
    public static ToldException Caller(Code code, string reason, Said words) => Told(code, words, new ErrorInfo { Domain = Domain, Reason = reason });

    /// <summary>The service is ending and takes nothing new: UNAVAILABLE; what was asked was not begun and can be sent again at once, to another.</summary>
    public static ToldException Draining() => Told(Code.Unavailable, "the service is ending and takes no new work; nothing was done; send it again, another instance answers",
        new ErrorInfo { Domain = Domain, Reason = "DRAINING" }, new RetryInfo { RetryDelay = Duration.FromTimeSpan(TimeSpan.Zero) });

    /// <summary>An act on a review was refused; nothing was written.</summary>
    public static ToldException Refused(RefusedException refused)
    {
        if (refused.Violations.Count > 0)
        {
            return Invalid(refused.Reason, refused.Reason == "PLAN_UNREADABLE" ? "the plan" : "the request", "", refused.Violations);
        }

        var code = refused.Why switch
        {
            Records.Refused.NotFound => Code.NotFound,
            Records.Refused.NotNow => Code.FailedPrecondition,
            Records.Refused.NotAllowed => Code.PermissionDenied,
            Records.Refused.LostRace => Code.Aborted,
            Records.Refused.KeyUsed => Code.AlreadyExists,
            _ => Code.InvalidArgument,
        };
        return Told(code, refused.Told, new ErrorInfo { Domain = Domain, Reason = refused.Reason });
    }

    /// <summary>The store failed. What it says itself goes into the log, not to the caller.</summary>
    public static ToldException StoreFault(StoreFaultException fault) => fault.Kind switch
    {
        StoreFaultKind.Full => Told(Code.ResourceExhausted, "the store has no room left; nothing was put on record; make room, then send again with the same key",
            new ErrorInfo { Domain = Domain, Reason = "STORE_FULL" }),
        StoreFaultKind.Damaged => Told(Code.DataLoss, "the store gives back something else than was written; verify the log, and restore a backup where it is broken",
            new ErrorInfo { Domain = Domain, Reason = "STORE_DAMAGED" }),
        _ => Told(Code.Unavailable, "the store does not answer or cannot be written; send again with the same key: it is then done once",
            new ErrorInfo { Domain = Domain, Reason = "STORE_UNAVAILABLE" }),
    };

    /// <summary>Something failed that is not the caller's doing; the log has it under the request's id.</summary>
    public static ToldException Internal(string requestId)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = "INTERNAL" };
        info.Metadata["request_id"] = requestId;
        return Told(Code.Internal, $"the service failed; nothing was judged; quote the request id {requestId}", info, new RequestInfo { RequestId = requestId });
    }

    /// <summary>The status of what cannot be used.</summary>
    public static Google.Rpc.Status Unusable(ErrorInfo info, Said words, IReadOnlyList<Violation> violations)
    {
        var request = new BadRequest();
        request.FieldViolations.AddRange(violations.Take(MostViolations).Select(violation => new BadRequest.Types.FieldViolation
        {
            Field = violation.Path,
            Description = (violation with { Found = Short(violation.Found), Allowed = Short(violation.Allowed), Remedy = Short(violation.Remedy) }).Sentence,
        }));
        return Status(Code.InvalidArgument, words.ToString(), request, info);
    }

    /// <summary>A status with details.</summary>
    public static Google.Rpc.Status Status(Code code, string message, params ReadOnlySpan<Google.Protobuf.IMessage> details)
    {
        var status = new Google.Rpc.Status { Code = (int)code, Message = message };
        foreach (var detail in details)
        {
            status.Details.Add(Any.Pack(detail));
        }

        return status;
    }

    private static UnusableException Invalid(string reason, string what, Said whereAll, IReadOnlyList<Violation> violations)
    {
        var info = new ErrorInfo { Domain = Domain, Reason = reason };
        info.Metadata["violations_total"] = violations.Count.ToString(System.Globalization.CultureInfo.InvariantCulture);
        var more = violations.Count > MostViolations ? (Said)$", of which {MostViolations} are in the details{whereAll}" : "";
        return new UnusableException(info, $"{(Said)what} cannot be used: {violations.Count} values are impossible or cannot be read{more}", violations);
    }

    private static ToldException Told(Code code, Said words, params ReadOnlySpan<Google.Protobuf.IMessage> details) => new(Status(code, words.ToString(), details), words);

    private static string Short(string text) => text.Length <= 160 ? text : text[..160] + "…";
}
