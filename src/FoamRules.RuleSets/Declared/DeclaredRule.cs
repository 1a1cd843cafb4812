using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>How a requirement is judged, as a rule set declares it.</summary>
public sealed record DeclaredRule
{
    /// <summary>What it is judged on.</summary>
    public required DeclaredBearer Bearer { get; init; }

    /// <summary>The id of the hazard because of which it is asked.</summary>
    public required string Hazard { get; init; }

    /// <summary>When it applies; null: always.</summary>
    public ExpressionText? Applies { get; init; }

    /// <summary>When it is met.</summary>
    public required ExpressionText Met { get; init; }

    /// <summary>Fields without which it cannot be judged, besides those that the expressions need.</summary>
    public ImmutableArray<ExpressionText> Needs { get; init; } = [];

    /// <summary>Where it stands, for messages.</summary>
    public required Violation Place { get; init; }
}

/// <summary>A declared requirement, compiled.</summary>
/// <param name="Applies">When it applies; null: always.</param>
/// <param name="Met">What must hold, part by part: what <c>&amp;&amp;</c> joins at the top of <c>met</c>.</param>
/// <param name="Needs">One condition for each field that must be given.</param>
public sealed record CompiledRule(Condition? Applies, ImmutableArray<Condition> Met, ImmutableArray<Condition> Needs)
{
    /// <summary>The key of the reason that stands where <c>applies</c> says no.</summary>
    public const string DoesNotApply = "applies";

    /// <summary>Compiles what a requirement declares.</summary>
    /// <param name="spec">The requirement as the rule sets state it; it has been checked when the rule sets were read.</param>
    public static CompiledRule Compile(RequirementSpec spec)
    {
        var compiled = Compile(spec.Declared!, spec.Limits, out var violations);
        return compiled ?? throw new InvalidOperationException(string.Join(Environment.NewLine, violations));
    }

    internal static CompiledRule? Compile(DeclaredRule rule, IReadOnlyDictionary<string, Limit> limits, out IReadOnlyList<Violation> violations)
    {
        var scope = ExpressionScope.Of(rule.Bearer, limits);
        var wrong = new List<Violation>();
        var applies = rule.Applies is { } when ? Try(when, text => Condition.Compile(SyntaxReader.Read(text), scope)) : null;
        var met = Try(rule.Met, text => Binary.Parts(SyntaxReader.Read(text)).Select(part => Condition.CompilePart(part, scope)).ToImmutableArray());
        var needs = rule.Needs.Select(need => Try(need, text => Need(text, scope))).ToList();
        violations = wrong;
        return wrong.Count == 0 ? new CompiledRule(applies, met, [.. needs!]) : null;

        T? Try<T>(ExpressionText text, Func<string, T> compile)
        {
            try
            {
                return compile(text.Text);
            }
            catch (ExpressionException problem)
            {
                wrong.Add(problem.In(text));
                return default;
            }
        }
    }

    private static Condition Need(string text, ExpressionScope scope) => SyntaxReader.Read(text) is Select field
        ? Condition.Compile(new Call(null, "has", [field], 0, 0), scope)
        : throw new ExpressionException(0, $"`{text}`", "a field, such as area.enclosure", "name a field; put conditions into met");
}
