using FoamRules.Rules.Facts;
using NRules.Fluent.Dsl;

namespace FoamRules.Rules.Hazards;

/// <summary>What the engine and the plain-loop evaluator ask of a hazard rule.</summary>
public interface IHazardRule
{
    /// <summary>What can go wrong.</summary>
    HazardKind Kind { get; }

    /// <summary>What its hazard falls on.</summary>
    Type BearerType { get; }

    /// <summary>The hazard on a bearer, or null where it does not arise.</summary>
    object? On(Bearer bearer);
}

/// <summary>Derives a hazard from a fact.</summary>
/// <typeparam name="TBearer">What the hazard falls on.</typeparam>
public abstract class HazardRule<TBearer> : Rule, IHazardRule
    where TBearer : Bearer
{
    /// <inheritdoc/>
    public abstract HazardKind Kind { get; }

    /// <summary>True where the hazard arises. What is not known is taken as a hazard.</summary>
    protected abstract bool Arises(TBearer bearer);

    /// <inheritdoc/>
    public Type BearerType => typeof(TBearer);

    /// <inheritdoc/>
    public object? On(Bearer bearer) => bearer is TBearer own && Arises(own) ? own.HazardOf(Kind) : null;

    /// <inheritdoc/>
    public override void Define()
    {
        TBearer bearer = null!;
        Name($"hazard {Kind} on {typeof(TBearer).Name}");
        // A hazard's rules come first, so that a report can show the chain in order. The condition is one call to this rule's
        // own predicate: the engine shares nodes between expressions that it takes for equal, and a call on another rule's
        // instance never is.
        Priority(1);
        When().Match(() => bearer, fact => Arises(fact));
        Then().Yield(_ => bearer.HazardOf(Kind));
    }
}

/// <summary>A hazard that every bearer of a type has.</summary>
/// <typeparam name="TBearer">What the hazard falls on.</typeparam>
public abstract class StandingHazard<TBearer> : HazardRule<TBearer>
    where TBearer : Bearer
{
    /// <inheritdoc/>
    protected sealed override bool Arises(TBearer bearer) => true;
}
