using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>
/// height.access-checked: a ladder stands high enough over the landing, at one in four, is tied and is not worked from; a scaffold was
/// inspected this shift; a lift stands on sound ground, with its gate shut and a trained person at its controls.
/// </summary>
public sealed class AccessChecked(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _aboveLanding = spec.Limits["above-landing"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Fall;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) =>
        bearer.Area.Access is { Kind: AccessKind.Roof or AccessKind.WalkingSurface, ByLadder: false } ? "on-foot" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (bearer.Area.Access is not { } access)
        {
            return Verdict.Missing(bearer.Area, nameof(WorkArea.Access));
        }

        return Verdict.Worst([OnWhichTheyStand(access), access.Kind == AccessKind.Ladder || access.ByLadder == true ? ByLadder(access) : Verdict.Met()]);
    }

    private static Verdict OnWhichTheyStand(Access access) => access.Kind switch
    {
        null => Verdict.Missing(access, nameof(Access.Kind)),
        AccessKind.Scaffold => Verdict.Confirmed(access.ScaffoldInspected, access, nameof(Access.ScaffoldInspected), "scaffold"),
        AccessKind.BoomLift or AccessKind.ScissorLift => ByLift(access),
        AccessKind.Roof or AccessKind.WalkingSurface when access.ByLadder is null => Verdict.Missing(access, nameof(Access.ByLadder)),
        _ => Verdict.Met().On(access, nameof(Access.Kind)),
    };

    private static Verdict ByLift(Access access) => access.Lift is { } lift
        ? Confirmation.All(
            new Confirmation(lift.OperatorTrained, lift, nameof(LiftCheck.OperatorTrained), "a trained person at the controls"),
            new Confirmation(lift.GroundSound, lift, nameof(LiftCheck.GroundSound), "sound, level ground"),
            new Confirmation(lift.GateShut, lift, nameof(LiftCheck.GateShut), "a shut gate"))
        : Verdict.Missing(access, nameof(Access.Lift));

    private Verdict ByLadder(Access access)
    {
        if (access.Ladder is not { } ladder)
        {
            return Verdict.Missing(access, nameof(Access.Ladder));
        }

        var above = ladder.AboveLanding is { } height
            ? Hold(height, _aboveLanding).Saying("short-ladder").On(ladder, nameof(LadderCheck.AboveLanding), height)
            : Verdict.Missing(ladder, nameof(LadderCheck.AboveLanding));
        var rest = Confirmation.All(
            new Confirmation(ladder.OneInFour, ladder, nameof(LadderCheck.OneInFour), "a foot that stands out a quarter of the length"),
            new Confirmation(ladder.Tied, ladder, nameof(LadderCheck.Tied), "a tie at the top"),
            new Confirmation(ladder.AccessOnly, ladder, nameof(LadderCheck.AccessOnly), "another place to work from"));
        return Verdict.Worst([above, rest]);
    }
}
