using FoamRules.Model;
using Google.Rpc;

namespace FoamRules.Service;

/// <summary>
/// What was sent cannot be used. Over gRPC it is INVALID_ARGUMENT with a google.rpc.BadRequest; trailers have little room and one
/// sentence for each field, so the violations themselves, all of them, are kept for answers that have a body.
/// </summary>
public sealed class UnusableException : ToldException
{
    private readonly ErrorInfo _info;

    internal UnusableException(ErrorInfo info, Said words, IReadOnlyList<Violation> violations)
        : base(Statuses.Unusable(info, words, violations), words) => (_info, Violations) = (info, violations);

    /// <summary>Everything that is wrong.</summary>
    public IReadOnlyList<Violation> Violations { get; }

    /// <inheritdoc/>
    public override ToldException In(IReadOnlyDictionary<string, string> patterns) =>
        new UnusableException(_info, Said.Name(Words.In(patterns)), [.. Violations.Select(violation => violation.In(patterns))]);
}
