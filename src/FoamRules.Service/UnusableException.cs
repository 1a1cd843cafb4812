using FoamRules.Model;
using Grpc.Core;

namespace FoamRules.Service;

/// <summary>
/// What was sent cannot be used. Over gRPC it is INVALID_ARGUMENT with a google.rpc.BadRequest; trailers have little room and one
/// sentence for each field, so the violations themselves, all of them, are kept for answers that have a body.
/// </summary>
public sealed class UnusableException : RpcException
{
    private UnusableException(RpcException plain, IReadOnlyList<Violation> violations)
        : base(plain.Status, plain.Trailers) => Violations = violations;

    /// <summary>Everything that is wrong.</summary>
    public IReadOnlyList<Violation> Violations { get; }

    /// <summary>The exception of a status, with the violations that it was made of.</summary>
    internal static UnusableException Of(Google.Rpc.Status status, IReadOnlyList<Violation> violations) => new(status.ToRpcException(), violations);
}
