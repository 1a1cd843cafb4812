using FoamRules.Model;

namespace FoamRules.Records;

/// <summary>Why an act is refused.</summary>
public enum Refused
{
    /// <summary>There is nothing of this id.</summary>
    NotFound,

    /// <summary>What stands on record forbids it.</summary>
    NotNow,

    /// <summary>This caller may not do it.</summary>
    NotAllowed,

    /// <summary>Something happened since the caller looked.</summary>
    LostRace,

    /// <summary>The key was used for another request.</summary>
    KeyUsed,

    /// <summary>The request or the plan in it cannot be used.</summary>
    Unusable,
}

/// <summary>An act is refused; nothing was written.</summary>
/// <param name="why">Why.</param>
/// <param name="reason">The reason as one word for programs.</param>
/// <param name="message">The reason in a sentence, with what to do.</param>
/// <param name="violations">What is wrong with the request; empty where it is not the request.</param>
public sealed class RefusedException(Refused why, string reason, Said message, IReadOnlyList<Violation>? violations = null) : Exception(message.ToString())
{
    /// <summary>Why.</summary>
    public Refused Why { get; } = why;

    /// <summary>The reason as one word for programs.</summary>
    public string Reason { get; } = reason;

    /// <summary>The sentence, which can be said in another language.</summary>
    public Said Told { get; } = message;

    /// <summary>What is wrong with the request.</summary>
    public IReadOnlyList<Violation> Violations { get; } = violations ?? [];
}
