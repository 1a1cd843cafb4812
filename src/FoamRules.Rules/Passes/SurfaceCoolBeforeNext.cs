using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Passes;

/// <summary>
/// pass.surface-cool-before-next: at pre-start with foam on the face, the surface is no warmer than the limit, and the wait has
/// run or a probe at mid-depth shows that the middle is cool. The surface alone never suffices. A probe that shows a hot middle
/// outweighs a wait that has run.
/// </summary>
public sealed class SurfaceCoolBeforeNext(RequirementSpec spec) : Requirement<SprayFacts>(spec)
{
    private readonly Limit _surface = spec.Limits["surface"];
    private readonly Limit _aboveAir = spec.Limits["above-air"];
    private readonly Limit _middle = spec.Limits["middle"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override string? WhyNot(SprayFacts bearer)
    {
        var (planned, done) = (bearer.Spray.Passes.Length, bearer.Spray.PassesDone);
        return planned == 1 ? "one-pass" : done == 0 ? "no-pass-yet" : planned > 0 && done >= planned ? "all-done" : null;
    }

    /// <inheritdoc/>
    protected override Verdict Judge(SprayFacts bearer)
    {
        var surface = Hottest(bearer, ReadingKind.FoamSurfaceTemperature);
        if (bearer.Spray is { PassesDone: null, LastPassEndedAt: null } && surface.Missing is not null)
        {
            return Verdict.Missing(bearer.Spray, nameof(SprayApplication.PassesDone));
        }

        return Verdict.Worst([surface.Missing ?? SurfaceCool(bearer, surface.Reading!), MiddleCool(bearer)]);
    }

    private Verdict SurfaceCool(SprayFacts bearer, Reading reading)
    {
        var surface = reading.Temperature!.Value;
        var sheet = bearer.Sheet;
        var limit = FromSheet(sheet, nameof(Product.MaxSurfaceBeforeNextPass), sheet.MaxSurfaceBeforeNextPass, Tighter.Lower);
        if (limit is not null || Hold(surface, _surface).Outcome == Outcome.Met)
        {
            return OnReading(Hold(surface, limit ?? _surface).Saying("warm-surface"), reading);
        }

        // The sheet is silent and the surface is warm: on a hot day the air allows more.
        var air = bearer.Area.Readings(ReadingKind.AirTemperature).Select(read => read.Temperature).OfType<Temperature>().ToList();
        if (air.Count == 0)
        {
            return Verdict.Missing(bearer.Area.Area, nameof(WorkArea.Readings));
        }

        var above = Temperature.FromKelvins(air.Min(one => one.Kelvins) + _aboveAir.As<TemperatureDelta>().Kelvins);
        var byAir = above > _surface.As<Temperature>() ? _surface.Amounting(above) : _surface;
        return OnReading(Hold(surface, byAir).Saying("warm-surface").RestingOn(_aboveAir), reading);
    }

    private Verdict MiddleCool(SprayFacts bearer)
    {
        var probe = Hottest(bearer, ReadingKind.FoamCoreTemperature);
        return probe.Reading is { } reading
            ? OnReading(Hold(reading.Temperature!.Value, _middle).Saying("hot-middle"), reading)
            : WaitHasRun(bearer);
    }

    // The sheet's wait, or the one planned before the next pass where that is longer.
    private static Verdict WaitHasRun(SprayFacts bearer)
    {
        var (spray, sheet, plan) = (bearer.Spray, bearer.Sheet, bearer.Job.Plan);
        if (spray.LastPassEndedAt is not { } ended)
        {
            return Verdict.Missing(spray, nameof(SprayApplication.LastPassEndedAt));
        }

        if (plan.JudgedAt is not { } now)
        {
            return Verdict.Missing(plan, nameof(Plan.JudgedAt));
        }

        if (FromSheet(sheet, nameof(Product.WaitBetweenPasses), sheet.WaitBetweenPasses, Tighter.Higher) is not { } limit)
        {
            return Verdict.Missing(sheet, nameof(Product.WaitBetweenPasses));
        }

        var next = spray.PassesDone is { } done && done < spray.Passes.Length ? spray.Passes[done] : null;
        if (next?.WaitBefore is { } planned && planned > limit.As<Duration>())
        {
            limit = PlanLimit.Of(next, nameof(Pass.WaitBefore), planned, Tighter.Higher);
        }

        return Hold(Duration.FromSeconds((now - ended).TotalSeconds), limit).Saying("too-soon")
            .On(spray, nameof(SprayApplication.LastPassEndedAt), Measure.OfInstant(ended));
    }

    private static Verdict OnReading(Verdict verdict, Reading reading) => verdict.On(reading, nameof(Reading.Temperature), reading.Temperature!.Value);

    // The hottest reading of this work since its last pass; one of which that is not known cannot be used.
    private static (Reading? Reading, Verdict? Missing) Hottest(SprayFacts bearer, ReadingKind kind)
    {
        var ended = bearer.Spray.LastPassEndedAt;
        var readings = bearer.Area.Readings(kind)
            .Where(reading => (reading.Work is null || reading.Work == bearer.Item.Id) && (ended is null || reading.At is null || reading.At >= ended))
            .ToList();
        if (readings.Count == 0)
        {
            return (null, Verdict.Missing(bearer.Area.Area, nameof(WorkArea.Readings)));
        }

        if (readings.FirstOrDefault(reading => reading.Temperature is null || (ended is not null && reading.At is null)) is { } unknown)
        {
            return (null, Verdict.Missing(unknown, unknown.Temperature is null ? nameof(Reading.Temperature) : nameof(Reading.At)));
        }

        return (readings.MaxBy(reading => reading.Temperature!.Value.Kelvins), null);
    }
}
