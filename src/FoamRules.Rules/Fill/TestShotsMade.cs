using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fill;

/// <summary>fill.test-shots-made: test shots were made on like cavities before production, and their fill was seen or measured.</summary>
public sealed class TestShotsMade : Requirement<FillFacts>
{
    private readonly Limit _shots;

    /// <summary>The requirement as the rule sets state it.</summary>
    public TestShotsMade(RequirementSpec spec)
        : base(spec)
    {
        _shots = Need("shots");
        _ = _shots.Count;
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenVoid;

    /// <inheritdoc/>
    protected override Verdict Judge(FillFacts bearer)
    {
        if (bearer.Fill.TestShots is not { } tests)
        {
            return Verdict.Missing(bearer.Fill, nameof(CavityFill.TestShots));
        }

        var made = Hold(tests.Shots.Length, _shots).On(tests, nameof(TestShots.Shots));
        if (made.Outcome != Outcome.Met)
        {
            return made;
        }

        // A height that was measured, or foam that came out at the top, shows that somebody looked.
        var looked = tests.FillSeenOrMeasured ?? (tests.Shots.All(shot => shot.FillHeight is not null || shot.Overflowed is true) ? true : null);
        return looked switch
        {
            true => made,
            false => Verdict.NotMet("not-seen").On(tests, nameof(TestShots.FillSeenOrMeasured)),
            null => Verdict.Missing(tests, nameof(TestShots.FillSeenOrMeasured)),
        };
    }
}
