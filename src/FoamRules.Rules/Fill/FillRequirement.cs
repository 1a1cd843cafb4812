using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>A requirement of a fill that is judged by the numbers that follow from it.</summary>
/// <param name="spec">The requirement as the rule sets state it.</param>
public abstract class FillRequirement(RequirementSpec spec) : Requirement<FillFacts>(spec)
{
    /// <summary>The values that several requirements share.</summary>
    protected FillParameters Parameters { get; } = new(spec.Parameters);

    /// <inheritdoc/>
    protected sealed override Verdict Judge(FillFacts bearer) => Judge(FillNumbers.Of(bearer, Parameters));

    /// <summary>Judges a fill.</summary>
    protected abstract Verdict Judge(FillNumbers numbers);

    /// <summary>Judges each space of a fill; the worst counts, and its name stands under <c>compartment</c>.</summary>
    protected static Verdict InEachSpace(FillNumbers numbers, Func<FillSpace, Verdict> judge) =>
        numbers.Spaces.Gap ?? Verdict.Worst(numbers.Spaces.Value.Select(space => judge(space).With("compartment", space.Name)));
}
