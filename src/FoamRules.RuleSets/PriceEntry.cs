using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets;

/// <summary>Something that must be in the price wherever a requirement asks for it.</summary>
public sealed record PriceEntry
{
    /// <summary>Its id, such as <c>vent-holes</c>.</summary>
    public required string Id { get; init; }

    /// <summary>What is to be priced, in words.</summary>
    public required string What { get; init; }

    /// <summary>The id of the requirement that asks for it.</summary>
    public required string AskedBy { get; init; }

    /// <summary>The name of the quantity, as the engine works it out.</summary>
    public required string Quantity { get; init; }

    /// <summary>The requirement's limit that is the quantity, where the quantity is <c>limit</c>; otherwise null.</summary>
    public string? Limit { get; init; }

    /// <summary>What a bare number counts, such as holes; empty where the quantity has a unit of its own.</summary>
    public string Unit { get; init; } = "";

    /// <summary>How the quantity is worked out, by the key of the way it was; the empty key where there is one way.</summary>
    public required ImmutableSortedDictionary<string, string> How { get; init; }

    /// <summary>Where the entry stands, for messages.</summary>
    public required Violation Place { get; init; }
}
