using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>air.intakes-protected: each outdoor air intake near the work is closed, or lies far enough away and upwind.</summary>
public sealed class IntakesProtected : Requirement<AreaFacts>
{
    private readonly Limit _distance;

    /// <summary>The requirement as the rule sets state it.</summary>
    public IntakesProtected(RequirementSpec spec)
        : base(spec) => _distance = Need("distance");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.BystandersExposed;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.Area.AirIntakes is { Intakes.IsEmpty: true } ? "no-intakes" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.AirIntakes is { } intakes
        ? Verdict.Worst(intakes.Intakes.Select((intake, index) => OneIntake(intake).With("intake", Spoken.NameOr(intake.Name, "intake", index + 1))))
        : Verdict.Missing(bearer.Area, nameof(WorkArea.AirIntakes));

    private Verdict OneIntake(AirIntake intake)
    {
        if (intake.Closed is true)
        {
            return Verdict.Met().On(intake, nameof(AirIntake.Closed));
        }

        var away = Verdict.Worst([Distance(intake), Answer.Yes(intake.Upwind, intake, nameof(AirIntake.Upwind), "downwind")]);
        // Far and upwind is enough. Where it is not, closing it would do; whether it is closed decides then.
        return away.Outcome == Outcome.Met || intake.Closed is false ? away : Verdict.Missing(intake, nameof(AirIntake.Closed));
    }

    private Verdict Distance(AirIntake intake) => intake.Distance is { } distance
        ? Hold(distance, _distance).On(intake, nameof(AirIntake.Distance), distance)
        : Verdict.Missing(intake, nameof(AirIntake.Distance));
}
