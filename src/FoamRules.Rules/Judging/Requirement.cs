using System.Collections.Immutable;
using System.Linq.Expressions;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.RuleSets;
using NRules.Fluent.Dsl;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>What the engine and the plain-loop evaluator ask of a requirement.</summary>
public interface IRequirement
{
    /// <summary>The requirement as the rule sets state it.</summary>
    RequirementSpec Spec { get; }

    /// <summary>The hazard because of which it is asked.</summary>
    HazardKind Answers { get; }

    /// <summary>What it is judged on.</summary>
    Type BearerType { get; }

    /// <summary>True for the bearers that it can be asked of.</summary>
    bool Covers(Bearer bearer);

    /// <summary>True where this hazard makes it be asked: the one condition of its rule.</summary>
    bool IsAskedBy(IHazard<Bearer> hazard);

    /// <summary>True where the plan itself can give the limit: a data sheet, a maker's plate, a specification. Its source is then no weak one.</summary>
    bool MayRestOnPlan { get; }

    /// <summary>Judges a bearer; never throws.</summary>
    Assessment Assess(Bearer bearer);

    /// <summary>Why it is not asked of a bearer: a key of the rule set's <c>not-applicable</c>; null where it is.</summary>
    string? ReasonNotAsked(Bearer bearer);

    /// <summary>Why it does not apply to a bearer, whatever the stage; null where it does, or where that shows only when it is judged.</summary>
    string? ReasonNotApplicable(Bearer bearer);
}

/// <summary>
/// A requirement: one thing that a source asks of a plan. Derive from it, say which hazard it answers, and judge. Limits,
/// severities, words and sources come from the rule sets; no number of the trade stands in a class.
/// </summary>
/// <typeparam name="TBearer">What it is judged on.</typeparam>
/// <param name="spec">The requirement as the rule sets state it.</param>
public abstract class Requirement<TBearer>(RequirementSpec spec) : Rule, IRequirement
    where TBearer : Bearer
{
    /// <summary>The key of the reason that stands where a requirement has no severity at a stage.</summary>
    public const string NotAtThisStage = "not-at-this-stage";

    private readonly Stage[] _judgedAt = [.. Enum.GetValues<Stage>()
        .Where(stage => spec.NotMet.At(stage) is not null || spec.Missing.At(stage) is not null || spec.Tiers.Values.Any(tier => tier.NotMet.At(stage) is not null))];

    /// <inheritdoc/>
    public RequirementSpec Spec { get; } = spec;

    /// <inheritdoc/>
    public abstract HazardKind Answers { get; }

    /// <inheritdoc/>
    public Type BearerType => typeof(TBearer);

    /// <inheritdoc/>
    public virtual bool MayRestOnPlan => false;

    /// <inheritdoc/>
    public bool Covers(Bearer bearer) => bearer is TBearer;

    /// <inheritdoc/>
    public bool IsAskedBy(IHazard<Bearer> hazard) => hazard is IHazard<TBearer> own && IsAsked(own);

    /// <inheritdoc/>
    public string? ReasonNotAsked(Bearer bearer) => _judgedAt.Contains(bearer.Stage) ? WhyNot((TBearer)bearer) : NotAtThisStage;

    /// <inheritdoc/>
    public string? ReasonNotApplicable(Bearer bearer) => WhyNot((TBearer)bearer);

    /// <inheritdoc/>
    public Assessment Assess(Bearer bearer)
    {
        try
        {
            // A condition that cannot be evaluated counts as fulfilled, so that the fault comes out here and not as "does not apply".
            return new Assessment(this, bearer, ReasonNotAsked(bearer) is { } reason ? Verdict.NotApplicable(reason) : Judge((TBearer)bearer), null);
        }
#pragma warning disable CA1031 // Whatever fails inside one requirement must not take the others with it; the report says that it failed.
        catch (Exception fault)
#pragma warning restore CA1031
        {
            return new Assessment(this, bearer, null, $"{fault.GetType().Name}: {fault.Message}");
        }
    }

    /// <inheritdoc/>
    public override void Define()
    {
        IHazard<TBearer> hazard = null!;
        Name(Spec.Id);
        // The kind comes first, as a constant: the engine tests it once for all the requirements that answer it, and most hazards go no
        // further. Then one call on this instance: see the remark in HazardRule.
        When().Match(() => hazard, OfKind(Answers), fact => IsAsked(fact));
        Then().Do(context => context.Resolve<AssessmentCollector>().Add(Assess(hazard.Bearer)));
    }

    /// <summary>Why the requirement does not apply to a bearer: a key of the rule set's <c>not-applicable</c>; null where it applies.</summary>
    protected virtual string? WhyNot(TBearer bearer) => null;

    /// <summary>Judges a bearer to which the requirement applies.</summary>
    protected abstract Verdict Judge(TBearer bearer);

    /// <summary>A limit that the rule sets must give.</summary>
    /// <exception cref="RuleSetMismatchException">No rule set gives it.</exception>
    protected Limit Need(string name) => Spec.Limits.GetValueOrDefault(name) ?? throw new RuleSetMismatchException(Spec.Id, $"no rule set gives the limit {name}");

    /// <summary>A limit that rule sets may give; null where none does.</summary>
    protected Limit? Find(string name) => Spec.Limits.GetValueOrDefault(name);

    /// <summary>A value that several requirements share, which the rule sets must give.</summary>
    /// <exception cref="RuleSetMismatchException">No rule set gives it.</exception>
    protected Limit Shared(string name) => Spec.Parameters.GetValueOrDefault(name) ?? throw new RuleSetMismatchException(Spec.Id, $"parameters.yaml does not give {name}");

    /// <summary>The limit of the product's data sheet where it gives one; the sheet governs.</summary>
    protected static Limit? FromSheet(Product sheet, string property, IQuantity? value, Tighter tighter) => value is null ? null : SheetLimit.Of(sheet, property, Measure.Of(value), tighter);

    /// <summary>
    /// The data sheet's limit where it gives one, else the rule sets'. A limit that a layer sets over any data sheet stands against a
    /// looser one.
    /// </summary>
    /// <param name="sheet">The data sheet's limit; null where it gives none.</param>
    /// <param name="limit">The rule sets' limit.</param>
    protected static Limit Governing(Limit? sheet, Limit limit) =>
        sheet is null ? limit
        : limit.Below.Where(below => !below.IsOverruled).Prepend(limit).Where(one => one.StandsOverSheet)
            .Aggregate(sheet, (tightest, one) => tightest.IsAtLeastAsTightAs(one) ? tightest : one);

    /// <summary>Holds a value against a limit: met on the limit and on its right side.</summary>
    protected internal static Verdict Hold(IQuantity value, Limit limit)
    {
        var quantity = limit.Value.Quantity ?? throw new RuleSetMismatchException(limit.Name, "a quantity is needed");
        var holds = Holds(value, quantity, limit);
        if (!holds && limit.Or?.Quantity is { } alternative && Holds(value, alternative, limit))
        {
            // The source prints both figures as alternatives: either satisfies.
            (holds, quantity) = (true, alternative);
        }

        var margin = limit.Direction == LimitDirection.AtMost ? Quantities.Difference(quantity, value) : Quantities.Difference(value, quantity);
        return (holds ? Verdict.Met() : Verdict.NotMet()) with { Value = Measure.Of(value), Limit = limit, Margin = Measure.Of(margin) };
    }

    /// <summary>Holds a count against a limit.</summary>
    protected internal static Verdict Hold(long value, Limit limit)
    {
        var holds = limit.Direction == LimitDirection.AtMost ? value <= limit.Count : value >= limit.Count;
        var margin = limit.Direction == LimitDirection.AtMost ? limit.Count - value : value - limit.Count;
        return (holds ? Verdict.Met() : Verdict.NotMet()) with { Value = Measure.OfCount(value), Limit = limit, Margin = Measure.OfCount(margin) };
    }

    /// <summary>Holds a bare number against a limit given as a factor.</summary>
    protected internal static Verdict Hold(double value, Limit limit) => Hold(new Scalar(value, UnitsNet.Units.ScalarUnit.Amount), limit);

    private static bool Holds(IQuantity value, IQuantity limit, Limit of)
    {
        var compared = Quantities.Compare(value, limit);
        return of.Direction == LimitDirection.AtMost ? compared <= 0 : compared >= 0;
    }

    // Written out, since the engine takes two expressions for equal only where a constant stands in them and not a property of two rules.
    private static Expression<Func<IHazard<TBearer>, bool>> OfKind(HazardKind kind)
    {
        var fact = Expression.Parameter(typeof(IHazard<TBearer>), "fact");
        var found = Expression.Property(fact, nameof(IHazard<>.Kind));
        return Expression.Lambda<Func<IHazard<TBearer>, bool>>(Expression.Equal(found, Expression.Constant(kind)), fact);
    }

    private bool IsAsked(IHazard<TBearer> hazard)
    {
        if (hazard.Kind != Answers)
        {
            return false;
        }

        try
        {
            return ReasonNotAsked(hazard.Bearer) is null;
        }
#pragma warning disable CA1031 // The rule engine cannot go on after a condition throws; Assess meets the same fault and reports it.
        catch (Exception)
#pragma warning restore CA1031
        {
            return true;
        }
    }
}

/// <summary>What came of judging one requirement on one bearer.</summary>
/// <param name="Requirement">The requirement.</param>
/// <param name="Bearer">What it was judged on.</param>
/// <param name="Verdict">The verdict; null where judging failed.</param>
/// <param name="Fault">What failed; null where it did not.</param>
public sealed record Assessment(IRequirement Requirement, Bearer Bearer, Verdict? Verdict, string? Fault);

/// <summary>Takes in assessments. Findings are not facts: inserting them would cost far more than judging.</summary>
public sealed class AssessmentCollector
{
    private readonly List<Assessment> _all = [];

    /// <summary>All assessments so far.</summary>
    public IReadOnlyList<Assessment> All => _all;

    /// <summary>Takes one in.</summary>
    public void Add(Assessment assessment) => _all.Add(assessment);
}

/// <summary>The rule sets do not give what a requirement needs. Found when the engine starts, before any plan is judged.</summary>
public sealed class RuleSetMismatchException(string requirement, string problem) : Exception($"{requirement}: {problem}");
