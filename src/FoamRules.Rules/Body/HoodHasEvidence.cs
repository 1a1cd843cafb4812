using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.hood-has-evidence: the maker's test evidence for the high factor of a helmet or hood is on file; without it the low one
/// counts. Asked where the table of factors has two for the set.
/// </summary>
public sealed class HoodHasEvidence : Requirement<PersonFacts>
{
    private readonly Limit _with;
    private readonly Limit _without;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HoodHasEvidence(RequirementSpec spec)
        : base(spec)
    {
        _with = Need("with-evidence");
        _without = Need("without-evidence");
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) =>
        bearer.Person.Respirator is { Facepiece: Facepiece.HelmetOrHood, Type: not (RespiratorType.SelfContained or RespiratorType.None) } ? null : "no-hood";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        var respirator = bearer.Person.Respirator!;
        return Verdict.Confirmed(respirator.HoodTestEvidence, respirator, nameof(Respirator.HoodTestEvidence))
            .With("with", _with.Value).With("without", _without.Value).RestingOn(_without);
    }
}
