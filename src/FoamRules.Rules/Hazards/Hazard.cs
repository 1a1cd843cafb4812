using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Hazards;

/// <summary>A hazard that falls on something: a fact derived from facts. Requirements are asked because of it.</summary>
/// <typeparam name="TBearer">What it falls on.</typeparam>
public interface IHazard<out TBearer>
    where TBearer : Bearer
{
    /// <summary>What can go wrong.</summary>
    HazardKind Kind { get; }

    /// <summary>What it falls on.</summary>
    TBearer Bearer { get; }
}

/// <summary>A hazard on a bearer. Compared by identity, like its bearer.</summary>
/// <typeparam name="TBearer">What it falls on.</typeparam>
/// <param name="kind">What can go wrong.</param>
/// <param name="bearer">What it falls on.</param>
public sealed class HazardFact<TBearer>(HazardKind kind, TBearer bearer) : IHazard<TBearer>
    where TBearer : Bearer
{
    /// <inheritdoc/>
    public HazardKind Kind { get; } = kind;

    /// <inheritdoc/>
    public TBearer Bearer { get; } = bearer;
}
