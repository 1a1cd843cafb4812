using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.RuleSets;
using FoamRules.RuleSets.Declared;

namespace FoamRules.Rules.Judging;

/// <summary>A requirement that a rule set declares: when it applies and when it is met are expressions over the plan.</summary>
/// <typeparam name="TBearer">What it is judged on.</typeparam>
/// <param name="spec">The requirement as the rule sets state it.</param>
/// <param name="answers">The hazard because of which it is asked.</param>
public sealed class DeclaredRequirement<TBearer>(RequirementSpec spec, HazardKind answers) : Requirement<TBearer>(spec)
    where TBearer : Bearer
{
    private readonly CompiledRule _rule = CompiledRule.Compile(spec);

    /// <inheritdoc/>
    public override HazardKind Answers => answers;

    // Where it is not known whether it applies, it is judged; the verdict says then what is missing.
    /// <inheritdoc/>
    protected override string? WhyNot(TBearer bearer) =>
        _rule.Applies is { } applies && Sound(applies.Ask(DeclaredInput.Of(bearer))).Holds == false ? CompiledRule.DoesNotApply : null;

    /// <inheritdoc/>
    protected override Verdict Judge(TBearer bearer)
    {
        var input = DeclaredInput.Of(bearer);
        var parts = _rule.Met.Select(part => (Condition: part, Answer: Sound(part.Ask(input)))).ToList();
        var applies = _rule.Applies is { } when ? Sound(when.Ask(input)) : (ExpressionAnswer?)null;
        var needed = _rule.Needs.SelectMany(need => Sound(need.Ask(input)).Reads.Where(read => !read.Given));
        var missing = parts.SelectMany(part => part.Answer.Missing).Concat(needed).ToList();
        var failing = parts.Where(part => part.Answer.Holds == false).ToList();
        var open = applies is { Holds: null } unknown ? unknown.Missing : [];
        if (failing.Count > 0)
        {
            // What is asked does not hold; whether it is asked at all may still be unknown.
            return open.Count > 0 ? Verdict.Missing(Fields(open)) : On(failing, Verdict.NotMet()).With("lacks", Lacks(failing));
        }

        return missing.Count > 0 ? Verdict.Missing(Fields(missing.Concat(open))) : On(parts, Verdict.Met(), applies?.Reads);
    }

    private static ExpressionAnswer Sound(ExpressionAnswer answer) => answer.Failure is { } why ? throw new InvalidOperationException(why) : answer;

    private static Verdict On(List<(Condition Condition, ExpressionAnswer Answer)> parts, Verdict verdict, IReadOnlyList<FieldRead>? besides = null)
    {
        verdict = verdict with
        {
            Evidence = Fields(parts.SelectMany(part => part.Answer.Reads).Concat(besides ?? []).Where(read => read.Given)),
            AlsoRestsOn = [.. parts.SelectMany(part => part.Condition.Limits).Distinct()],
        };
        foreach (var (condition, answer) in parts)
        {
            if (condition.Against is { } limit && answer.Reads is [{ Value: { } value }])
            {
                return verdict with { Value = value, Limit = limit, Margin = MarginOf(value, limit), AlsoRestsOn = verdict.AlsoRestsOn.Remove(limit) };
            }
        }

        return verdict;
    }

    private static Measure? MarginOf(Measure value, Limit limit)
    {
        var isMost = limit.Direction == LimitDirection.AtMost;
        return (value, limit.Value) switch
        {
            ({ Quantity: { } found }, { Quantity: { } allowed }) => Measure.Of(isMost ? Quantities.Difference(allowed, found) : Quantities.Difference(found, allowed)),
            ({ Count: { } found }, { Count: { } allowed }) => Measure.OfCount(isMost ? allowed - found : found - allowed),
            _ => null,
        };
    }

    // The same fields in the same order, whichever way the expression has gone through the plan.
    private static ImmutableArray<FieldRef> Fields(IEnumerable<FieldRead> reads) =>
        [.. reads.Select(read => new FieldRef(read.Node, read.Property, read.Given ? read.Value : null)).DistinctBy(field => field.Path).OrderBy(field => field.Path, StringComparer.Ordinal)];

    private static Measure Lacks(List<(Condition Condition, ExpressionAnswer Answer)> failing) =>
        Spoken.List(failing.SelectMany(part => part.Answer.Reads).Select(read => read.Name.Replace('_', ' ')).Distinct().Select(Spoken.Word));
}

/// <summary>What the expressions of a declared requirement look at.</summary>
internal static class DeclaredInput
{
    public static ExpressionInput Of(Bearer bearer)
    {
        var work = bearer as WorkFacts;
        return new ExpressionInput
        {
            Plan = bearer.Job.Plan,
            Site = bearer.Job.Site,
            Gear = bearer.Job.Gear,
            Area = (bearer as AreaFacts ?? work?.Area)?.Area,
            Product = (bearer as ProductFacts ?? work?.Product)?.Product,
            Person = (bearer as PersonFacts)?.Person,
            Work = work?.Item,
            Spray = (work as SprayFacts)?.Spray,
            Fill = (work as FillFacts)?.Fill,
        };
    }
}
