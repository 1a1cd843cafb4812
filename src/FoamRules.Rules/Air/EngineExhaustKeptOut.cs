using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.engine-exhaust-kept-out: each engine stands outdoors, far enough from openings, intakes and the breathing-air inlet, and
/// downwind of them; a carbon monoxide alarm hangs inside.
/// </summary>
public sealed class EngineExhaustKeptOut : Requirement<AreaFacts>
{
    private readonly Limit _distance;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EngineExhaustKeptOut(RequirementSpec spec)
        : base(spec) => _distance = Need("distance");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.EngineExhaust;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        return area.Engines is { } engines
            ? Verdict.Worst(
            [
                .. engines.Engines.SelectMany((engine, index) => OneEngine(engine).Select(verdict => verdict.With("engine", Spoken.NameOr(engine.Name, "engine", index + 1)))),
                Answer.Yes(area.CarbonMonoxideAlarm, area, nameof(WorkArea.CarbonMonoxideAlarm), "no-alarm"),
            ])
            : Verdict.Missing(area, nameof(WorkArea.Engines));
    }

    private Verdict[] OneEngine(Model.Engine engine) =>
    [
        Answer.Yes(engine.Outdoors, engine, nameof(Model.Engine.Outdoors), "indoors"),
        engine.DistanceToOpenings is { } distance
            ? Hold(distance, _distance).On(engine, nameof(Model.Engine.DistanceToOpenings), distance)
            : Verdict.Missing(engine, nameof(Model.Engine.DistanceToOpenings)),
        Answer.Yes(engine.Downwind, engine, nameof(Model.Engine.Downwind), "upwind"),
    ];
}
