using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Air;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;
using Set = FoamRules.Model.Respirator;

namespace FoamRules.Rules.Body;

/// <summary>
/// body.respirator-protects-enough: for each of a person's tasks in each of their areas, the set is at least the floor of the
/// task, and its assigned protection factor is at least the expected peak over the lowest limit in force; the concentration that is
/// immediately dangerous and the cartridge's limit cap it. Where the plan gives no level the floor stands alone: that is said, at the
/// severities of the tier <c>not-measured</c>, and it is never a pass. Helpers and others in an area where foam is only poured
/// have the floor of the pour. A task without a floor is judged where the plan gives a level for it.
/// </summary>
public sealed class RespiratorProtectsEnough : Requirement<PersonFacts>
{
    private const string NotMeasured = "not-measured";

    private readonly RespiratorFactors _factors;
    private readonly ImmutableArray<Limit> _limits;
    private readonly Limit _idlh;
    private readonly MdiVapour _vapour;

    /// <summary>The requirement as the rule sets state it.</summary>
    public RespiratorProtectsEnough(RequirementSpec spec)
        : base(spec)
    {
        _factors = new RespiratorFactors(spec);
        _limits = [.. spec.Limits.Where(limit => limit.Key.StartsWith("exposure.mdi.", StringComparison.Ordinal)).Select(limit => limit.Value)];
        _idlh = Need("idlh.mdi");
        _vapour = new MdiVapour(Shared("mdi-molar-mass"), Shared("limits-at-temperature"), Shared("limits-at-pressure"));
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override string? WhyNot(PersonFacts bearer) =>
        bearer.Areas.Any(area => Tasks(bearer, area).Any(task => IsAsked(area, task))) ? null : "no-floor";

    /// <inheritdoc/>
    protected override Verdict Judge(PersonFacts bearer)
    {
        if (bearer.Person.Respirator is not { } set)
        {
            return Verdict.Missing(bearer.Person, nameof(Person.Respirator));
        }

        if (set.Type is null)
        {
            return Verdict.Missing(set, nameof(Set.Type));
        }

        var verdicts = bearer.Areas.SelectMany(area => Tasks(bearer, area).Where(task => IsAsked(area, task)).SelectMany(task => AtTask(area, task, set)));
        // What is not known of the set itself comes before a level that nobody measured.
        return Verdict.Worst(verdicts.OrderBy(verdict => verdict.Tier is not null));
    }

    private static ImmutableArray<CrewTask> Tasks(PersonFacts person, AreaFacts area) =>
        !person.Person.Tasks.IsEmpty ? person.Person.Tasks : area.HasSpraying ? [CrewTask.Spray] : [CrewTask.Pour];

    private bool IsAsked(AreaFacts area, CrewTask task) => area.Area.Enclosure is null || FloorOf(area, task) is not null || LevelsOf(area, task).Any();

    private TaskFloor? FloorOf(AreaFacts area, CrewTask task)
    {
        var place = AreaAir.IsInTheOpen(area) ? "outdoors" : "indoors";
        var floor = TaskFloor.Of(Spec, place, task);
        return floor is null || area.HasSpraying ? floor : TaskFloor.Of(Spec, place, CrewTask.Pour);
    }

    private static IEnumerable<AirborneLevel> LevelsOf(AreaFacts area, CrewTask task) =>
        area.Area.AirborneLevels.Where(level => IsPeakGiven(level) && (level.Task is null || level.Task == task));

    private IEnumerable<Verdict> AtTask(AreaFacts area, CrewTask task, Set set)
    {
        if (area.Area.Enclosure is null)
        {
            return [Verdict.Missing(area.Area, nameof(WorkArea.Enclosure))];
        }

        var floor = FloorOf(area, task);
        var byFloor = floor is null ? Verdict.Met() : AtFloor(floor, set);
        var verdicts = byFloor.Outcome == Outcome.Met ? ByLevel(area, task, floor, set) : [byFloor];
        return verdicts.Select(verdict => verdict.With("task", Spoken.Of(task)).With("area", area.Area.Id).With("set", NameOf(set)));
    }

    private Verdict AtFloor(TaskFloor floor, Set set)
    {
        if (set.Type == RespiratorType.None)
        {
            return (Verdict.NotMet("nothing-worn") with { Limit = floor.Facepiece }).On(set, nameof(Set.Type));
        }

        if (set.Facepiece is not { } facepiece)
        {
            return Verdict.Missing(set, nameof(Set.Facepiece));
        }

        var face = Answer.OneOf(Answer.Word(facepiece), floor.Facepiece, "facepiece-too-little").On(set, nameof(Set.Facepiece));
        var air = floor.Air is null ? Verdict.Met() : Answer.OneOf(Answer.Word(set.Type!.Value), floor.Air, "no-supplied-air").On(set, nameof(Set.Type));
        return Verdict.Worst([face, air, FactorOf(set) is { } factor ? ByFactor(factor, floor, set) : Verdict.Missing(set, nameof(Set.Mode))]);
    }

    private static Verdict ByFactor(Calculated<Scalar> factor, TaskFloor floor, Set set) => factor.HasValue
        ? Hold(factor.Value, floor.Factor) is { Outcome: Outcome.NotMet } low ? low.Saying("factor-below-floor").Worked(factor.Steps) : Verdict.Met()
        : (Verdict.NotMet("no-factor") with { Limit = floor.Factor }).On(set, nameof(Set.Facepiece));

    private IEnumerable<Verdict> ByLevel(AreaFacts area, CrewTask task, TaskFloor? floor, Set set)
    {
        var levels = LevelsOf(area, task).ToList();
        if (!levels.Exists(level => level.Substance is Substance.Mdi))
        {
            yield return Verdict.Missing(area.Area, nameof(WorkArea.AirborneLevels)).Saying("task-default").AtTier(NotMeasured);
        }

        foreach (var level in levels)
        {
            yield return level.Substance switch
            {
                null => Verdict.Missing(level, nameof(AirborneLevel.Substance)),
                Substance.Mdi => AtLevel(level, floor, set),
                { } other => Verdict.Undetermined("no-limit").AtTier(NotMeasured).With("substance", Spoken.Of(other)),
            };
        }
    }

    private Verdict AtLevel(AirborneLevel level, TaskFloor? floor, Set set)
    {
        if (FactorOf(set) is not { } assigned)
        {
            return Verdict.Missing(set, set.Facepiece is null ? nameof(Set.Facepiece) : nameof(Set.Mode));
        }

        if (!assigned.HasValue)
        {
            return Verdict.NotMet("no-factor").On(set, nameof(Set.Facepiece));
        }

        if (_vapour.Larger(level.PeakByMass, level.PeakByVolume, level.Substance) is not { } peak)
        {
            return Verdict.Missing(level, nameof(AirborneLevel.PeakByMass));
        }

        var needed = Calculations.Respirator.NeededFactor(floor?.Factor.Factor ?? 1, [.. _limits.Select(limit => new Exposure(limit.Name, _vapour.Of(limit), peak))]);
        if (!needed.HasValue)
        {
            return Verdict.OutOfRange(needed.Refusal!);
        }

        var governing = _limits.Single(limit => limit.Name == needed.Value.GoverningLimit);
        var enough = governing.Amounting(Scalar.FromAmount(needed.Value.FromExposure), Tighter.Higher) with { Name = "needed-factor" };
        var verdict = Hold(assigned.Value, enough).On(level, nameof(AirborneLevel.PeakByMass), peak).Worked(assigned.Steps).Worked(needed.Steps)
            .With("peak", peak).With("exposure-limit", governing.Value);
        return verdict.Outcome == Outcome.NotMet ? verdict.Saying("factor-too-little") : Capped(verdict, peak, _vapour.Of(governing), assigned.Value, set);
    }

    // The factor is enough; what caps the use of the set may still be below the peak.
    private Verdict Capped(Verdict verdict, MassConcentration peak, MassConcentration limit, Scalar assigned, Set set)
    {
        var filters = set.Type is RespiratorType.AirPurifying or RespiratorType.PoweredAirPurifying;
        if (filters && set.CartridgeLimit is null)
        {
            return Verdict.Missing(set, nameof(Set.CartridgeLimit));
        }

        var use = Calculations.Respirator.MaximumUseConcentration(assigned.Amount, limit, _vapour.Of(_idlh), filters ? set.CartridgeLimit : null);
        if (!use.HasValue)
        {
            return Verdict.OutOfRange(use.Refusal!);
        }

        verdict = verdict.Worked(use.Steps);
        if (Quantities.Compare(peak, use.Value.Concentration) <= 0)
        {
            return verdict;
        }

        return (Verdict.NotMet(use.Value.Reason == MaximumUseReason.Cartridge ? "above-cartridge" : "above-idlh") with { Steps = verdict.Steps, Evidence = verdict.Evidence, Words = verdict.Words })
            .RestingOn(_idlh).With("use-limit", Measure.AtMost(use.Value.Concentration));
    }

    /// <summary>The factor of a set; null where its facepiece, or the mode that decides, is not given.</summary>
    private Calculated<Scalar>? FactorOf(Set set) => set switch
    {
        { Type: RespiratorType.None } => Calculated<Scalar>.From(Scalar.FromAmount(1)),
        { Facepiece: null } => null,
        { Mode: null } when RespiratorFactors.HasModes(set) => null,
        _ => _factors.Of(set),
    };

    private static bool IsPeakGiven(AirborneLevel level) => level.PeakByMass is not null || level.PeakByVolume is not null;

    private static Measure NameOf(Set set) => Spoken.List(new[]
    {
        set.Type is { } type ? Spoken.Of(type) : null,
        RespiratorFactors.HasModes(set) && set.Mode is { } mode ? Spoken.Of(mode) : null,
        set is { Type: not RespiratorType.None, Facepiece: { } facepiece } ? Spoken.Of(facepiece) : null,
    }.OfType<Measure>());
}
