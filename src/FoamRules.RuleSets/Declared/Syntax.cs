using System.Collections.Immutable;

namespace FoamRules.RuleSets.Declared;

/// <summary>A part of an expression as it is written, before anything is known of names and types.</summary>
/// <param name="At">Where it begins in the expression, from 0.</param>
internal abstract record Syntax(int At);

/// <summary>A literal: a bool, long, double or string.</summary>
internal sealed record Literal(object Value, int At) : Syntax(At);

/// <summary>A name that stands alone.</summary>
internal sealed record Name(string Text, int At) : Syntax(At);

/// <summary>A field of something.</summary>
internal sealed record Select(Syntax Of, string Field, int FieldAt, int At) : Syntax(At);

/// <summary>A call, on something or alone.</summary>
internal sealed record Call(Syntax? On, string Function, ImmutableArray<Syntax> Arguments, int FunctionAt, int At) : Syntax(At);

/// <summary>An entry of a list.</summary>
internal sealed record Index(Syntax Of, Syntax Number, int At) : Syntax(At);

/// <summary>An operator before one operand: <c>!</c> or <c>-</c>.</summary>
internal sealed record Unary(string Operator, Syntax Operand, int At) : Syntax(At);

/// <summary>An operator between two operands.</summary>
internal sealed record Binary(string Operator, Syntax Left, Syntax Right, int At) : Syntax(At)
{
    /// <summary>The parts that <c>&amp;&amp;</c> joins at the top of an expression.</summary>
    public static IEnumerable<Syntax> Parts(Syntax whole) =>
        whole is Binary { Operator: "&&" } both ? Parts(both.Left).Concat(Parts(both.Right)) : [whole];
}

/// <summary>One of two values by a condition.</summary>
internal sealed record Conditional(Syntax Condition, Syntax Then, Syntax Else, int At) : Syntax(At);

/// <summary>A list that is written out.</summary>
internal sealed record ListOf(ImmutableArray<Syntax> Items, int At) : Syntax(At);
