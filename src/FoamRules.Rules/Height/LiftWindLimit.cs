using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>height.lift-wind-limit: gusts at the height of the work are at most what the lift's own plate allows.</summary>
public sealed class LiftWindLimit(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Fall;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer)
    {
        if (bearer.Area.Access is { Kind: not (null or AccessKind.BoomLift or AccessKind.ScissorLift) })
        {
            return "no-lift";
        }

        return bearer.Area.Enclosure == Enclosure.Interior ? "indoors" : null;
    }

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        return area.Access is { } access ? Calm(bearer, access).OnceKnown(UnknownsOf(area, access)) : Verdict.Missing(area, nameof(WorkArea.Access));
    }

    private static Verdict Calm(AreaFacts bearer, Access access)
    {
        var gusts = StandingReadings.In(bearer, ReadingKind.WindGust);
        if (gusts.IsEmpty)
        {
            return Verdict.Worst([StandingReadings.None(bearer, "wind gusts at the height of the work"), access.LiftWindLimit is null ? NoPlate(access) : Verdict.Met()]);
        }

        return access.LiftWindLimit is { } plate
            ? Verdict.Worst(gusts.Select(gust => Calm(gust, PlanLimit.Of(access, nameof(Access.LiftWindLimit), plate, Tighter.Lower, SourceStatus.DataSheet))))
            : NoPlate(access);
    }

    private static Verdict Calm(Reading gust, Limit plate) => gust.Speed is { } speed
        ? Hold(speed, plate).On(gust, nameof(Reading.Speed), speed)
        : Verdict.Missing(gust, nameof(Reading.Speed));

    private static Verdict NoPlate(Access access) => Verdict.Missing(access, nameof(Access.LiftWindLimit));

    private static IEnumerable<FieldRef> UnknownsOf(WorkArea area, Access access)
    {
        if (access.Kind is null)
        {
            yield return new FieldRef(access, nameof(Access.Kind));
        }

        if (area.Enclosure is null)
        {
            yield return new FieldRef(area, nameof(WorkArea.Enclosure));
        }
    }
}
