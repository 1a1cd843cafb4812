using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>The names that an expression may use: variables of the plan, and limits.</summary>
internal sealed class ExpressionScope
{
    private ExpressionScope(ImmutableSortedDictionary<string, System.Reflection.PropertyInfo> variables, ImmutableSortedDictionary<string, Limit> limits)
    {
        Variables = variables;
        Limits = limits;
    }

    /// <summary>No names at all: plain values only.</summary>
    public static ExpressionScope Plain { get; } = new(
        ImmutableSortedDictionary<string, System.Reflection.PropertyInfo>.Empty, ImmutableSortedDictionary<string, Limit>.Empty);

    /// <summary>Properties of <see cref="ExpressionInput"/> by the names of the variables.</summary>
    public ImmutableSortedDictionary<string, System.Reflection.PropertyInfo> Variables { get; }

    /// <summary>Limits by the names that stand after <c>limits.</c>, with underscores for hyphens.</summary>
    public ImmutableSortedDictionary<string, Limit> Limits { get; }

    /// <summary>The names for a bearer and a requirement's limits.</summary>
    public static ExpressionScope Of(DeclaredBearer bearer, IReadOnlyDictionary<string, Limit> limits) => new(
        ExpressionInput.VariablesOf(bearer).ToImmutableSortedDictionary(PathStep.FieldName, name => typeof(ExpressionInput).GetProperty(name)!, StringComparer.Ordinal),
        limits.ToImmutableSortedDictionary(limit => limit.Key.Replace('-', '_'), limit => limit.Value, StringComparer.Ordinal));
}
