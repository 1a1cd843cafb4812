using System.Collections.Immutable;
using System.Linq.Expressions;

namespace FoamRules.RuleSets.Declared;

/// <summary>A part of an expression whose names and types are known, with the code that works it out.</summary>
/// <param name="Type">Its type.</param>
/// <param name="Code">Code of type <see cref="Value{T}"/> of the type's values.</param>
/// <param name="At">Where it begins in the expression.</param>
internal sealed record Bound(ExpressionType Type, Expression Code, int At)
{
    /// <summary>The value of a literal; null where it is none.</summary>
    public object? Constant { get; init; }

    /// <summary>The entries of a list that is written out; default where it is none.</summary>
    public ImmutableArray<Bound> Items { get; init; }

    /// <summary>The limit that it names; null where it names none.</summary>
    public Limit? Limit { get; init; }

    /// <summary>The limit that it holds one field against; null where it is anything else.</summary>
    public FieldAgainstLimit? Against { get; init; }

    /// <summary>True where it is a field, or an entry of a list.</summary>
    public bool IsField { get; init; }
}

/// <summary>A field held against a limit.</summary>
/// <param name="Sign">The comparison, with the field on its left side.</param>
/// <param name="Limit">The limit.</param>
internal sealed record FieldAgainstLimit(string Sign, Limit Limit);
