using System.Collections.Immutable;

namespace FoamRules.Model;

/// <summary>Something that must be in the price, and how much of it. The caller prices it.</summary>
public sealed record PriceLine
{
    /// <summary>The line's id in the rule sets, such as <c>vent-holes</c>.</summary>
    public required string Id { get; init; }

    /// <summary>What it belongs to.</summary>
    public required Subject Subject { get; init; }

    /// <summary>What is to be priced, in words.</summary>
    public required string What { get; init; }

    /// <summary>The requirement that asks for it.</summary>
    public required string Requirement { get; init; }

    /// <summary>How much of it; null where that is not known: it must be in the price all the same.</summary>
    public Measure? Quantity { get; init; }

    /// <summary>What a bare number counts, such as holes; empty where the quantity has a unit of its own.</summary>
    public string Unit { get; init; } = "";

    /// <summary>True where the quantity is only the least that is needed.</summary>
    public bool AtLeast { get; init; }

    /// <summary>How the quantity was worked out, or why it is not known.</summary>
    public string How { get; init; } = "";

    /// <summary>Paths of inputs without which the quantity is not known, or only its least.</summary>
    public ImmutableArray<string> Missing { get; init; } = [];

    /// <summary>How the quantity was worked out, step by step.</summary>
    public ImmutableArray<WorkedStep> Steps { get; init; } = [];
}
