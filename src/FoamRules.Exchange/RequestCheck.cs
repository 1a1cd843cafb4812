using FoamRules.Model;
using Google.Protobuf;

namespace FoamRules.Exchange;

/// <summary>Checks requests against what the contract allows.</summary>
public static class RequestCheck
{
    /// <summary>Everything that is wrong with a request, by field path; plans within it are left to <see cref="PlanReader"/>.</summary>
    public static IReadOnlyList<Violation> Of(IMessage request) => FieldChecker.Check(request);
}
