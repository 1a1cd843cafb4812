using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using UnitsNet;
using OpenVent = FoamRules.Calculations.Vent;

namespace FoamRules.Rules.Fill;

/// <summary>The void of a cavity in plan.</summary>
/// <param name="Smallest">The smallest likely one: nominal wall.</param>
/// <param name="Largest">The largest likely one: design wall.</param>
public sealed record VoidAreas(Area Smallest, Area Largest);

/// <summary>
/// The values that follow from a fill and its product, in one place for the requirements and for today's numbers. Each is
/// there with its worked steps, or says what is missing.
/// </summary>
public sealed class FillNumbers
{
    private readonly FillParameters _parameters;

    private FillNumbers(FillFacts facts, FillParameters parameters)
    {
        Facts = facts;
        _parameters = parameters;
        Outline = MemberSection.Outline(facts.Fill);
        Section = MemberSection.Of(facts.Fill);
        Voids = FindVoids();
        Spaces = FindSpaces();
        SiteDensity = FindSiteDensity();
        Output = FindOutput();
        FlowFactor = FindFlowFactor();
    }

    /// <summary>The numbers of a fill.</summary>
    /// <param name="facts">The fill.</param>
    /// <param name="parameters">What the rule sets give.</param>
    public static FillNumbers Of(FillFacts facts, FillParameters parameters) =>
        facts.Once(parameters.Shared, () => new FillNumbers(facts, parameters));

    /// <summary>The fill with its product, area and job.</summary>
    public FillFacts Facts { get; }

    /// <summary>The fill.</summary>
    public CavityFill Fill => Facts.Fill;

    /// <summary>The section's outline, by its designation.</summary>
    public Derived<HollowSection> Outline { get; }

    /// <summary>What the section's standard says of it.</summary>
    public Derived<SectionProperties> Section { get; }

    /// <summary>The void in plan; both ends are the same where the plan gives an area instead of a section.</summary>
    public Derived<VoidAreas> Voids { get; }

    /// <summary>The spaces to fill, from the foot up.</summary>
    public Derived<ImmutableArray<FillSpace>> Spaces { get; }

    /// <summary>Free-rise density at the site's air pressure.</summary>
    public Derived<Density> SiteDensity { get; }

    /// <summary>The machine's output with its lag: as given, else from the weighed test shots.</summary>
    public Derived<Output> Output { get; }

    /// <summary>
    /// Flow factor at this steel's temperature. It comes from test shots and has no default: steel that is much colder or
    /// warmer than at the test shots leaves it unknown.
    /// </summary>
    public Derived<double> FlowFactor { get; }

    /// <summary>The least that a flow factor can be: foam that flows never ends lighter than foam that rises freely.</summary>
    public const double LeastFlowFactor = 1;

    /// <summary>True where cold walls can change the flow factor.</summary>
    public bool HasSteelWalls => Fill.Section is not null || Fill.Cavity is null or CavityKind.SteelSection or CavityKind.Frame;

    /// <summary>The least inside width.</summary>
    public Derived<Length> InsideWidth => MemberSection.InsideWidth(Fill);

    /// <summary>Standard deviation of a shot's mass: as declared, else the rule set's.</summary>
    public Ratio OutputSpread => Fill.TestShots?.OutputSpread ?? _parameters.OutputSpread.As<Ratio>();

    /// <summary>The shots into a space in their order, each with its time; empty where none goes into it.</summary>
    public Derived<ImmutableArray<(Shot Shot, Duration Time)>> ShotsInto(FillSpace space)
    {
        if (Fill.Shots.IsEmpty)
        {
            return Derived<ImmutableArray<(Shot, Duration)>>.Missing(Fill, nameof(CavityFill.Shots));
        }

        var unplaced = space.IsOnly ? null : Gaps.Of(Fill.Shots.Where(shot => shot.Compartment is null).Select(shot => Verdict.Missing(shot, nameof(Shot.Compartment))));
        var own = Fill.Shots.Where(shot => space.IsOnly || shot.Compartment == space.Number).ToImmutableArray();
        var untimed = Gaps.Of(own.Where(shot => shot.TriggerTime is null).Select(shot => Verdict.Missing(shot, nameof(Shot.TriggerTime))));
        return Gaps.Of(unplaced, untimed) is { } gap
            ? Derived<ImmutableArray<(Shot, Duration)>>.Without(gap)
            : Derived<ImmutableArray<(Shot, Duration)>>.Of([.. own.Select(shot => (shot, shot.TriggerTime!.Value))]);
    }

    /// <summary>The mass of one shot, with the ends that the spread of the output gives it.</summary>
    public Derived<FillMassRange> MassOf(Duration shot)
    {
        if (Output.Gap is { } gap)
        {
            return Derived<FillMassRange>.Without(gap);
        }

        var mass = FillMass.MassFrom(shot, Output.Value);
        return mass.HasValue
            ? Derived<FillMassRange>.From(FillMass.WithSpread(mass.Value, OutputSpread, _parameters.OutputEnds.Factor), mass.Steps)
            : Derived<FillMassRange>.Without(Verdict.OutOfRange(mass.Refusal!));
    }

    /// <summary>The mass planned for a space; nothing where no shot goes into it.</summary>
    public Derived<FillMassRange> PlannedMass(FillSpace space)
    {
        var shots = ShotsInto(space);
        if (Gaps.Of(shots.Gap, Output.Gap) is { } gap)
        {
            return Derived<FillMassRange>.Without(gap);
        }

        var sum = new FillMassRange(Mass.Zero, Mass.Zero, Mass.Zero);
        var steps = Output.Steps;
        foreach (var (_, time) in shots.Value)
        {
            var one = MassOf(time);
            if (one.Gap is { } refused)
            {
                return Derived<FillMassRange>.Without(refused);
            }

            sum = new FillMassRange(sum.Low + one.Value.Low, sum.Aim + one.Value.Aim, sum.High + one.Value.High);
            steps = steps.AddRange(one.Steps);
        }

        return Derived<FillMassRange>.Of(sum, steps);
    }

    /// <summary>Minimum fill mass of a space of the given void.</summary>
    public Derived<Mass> MinimumFill(FillSpace space, Func<VoidAreas, Area> which, double flowFactor)
    {
        if (Gaps.Of(Voids.Gap, SiteDensity.Gap) is { } gap)
        {
            return Derived<Mass>.Without(gap);
        }

        var volume = FillMass.VoidVolume(which(Voids.Value), space.Length);
        return volume.HasValue
            ? Derived<Mass>.From(FillMass.MinimumFill(volume.Value, SiteDensity.Value, flowFactor), [.. Voids.Steps, .. SiteDensity.Steps, .. volume.Steps])
            : Derived<Mass>.Without(Verdict.OutOfRange(volume.Refusal!));
    }

    /// <summary>The mass that a space needs: low, aim and high.</summary>
    /// <param name="space">The space.</param>
    /// <param name="overpack">Greatest overpack over the minimum fill.</param>
    public Derived<FillMassRange> NeededMass(FillSpace space, Ratio overpack)
    {
        if (Gaps.Of(Voids.Gap, SiteDensity.Gap, FlowFactor.Gap) is { } gap)
        {
            return Derived<FillMassRange>.Without(gap);
        }

        var smallest = FillMass.VoidVolume(Voids.Value.Smallest, space.Length);
        var largest = FillMass.VoidVolume(Voids.Value.Largest, space.Length);
        return (smallest.Refusal ?? largest.Refusal) is { } refusal
            ? Derived<FillMassRange>.Without(Verdict.OutOfRange(refusal))
            : Derived<FillMassRange>.From(
                FillMass.ForCompartment(smallest.Value, largest.Value, SiteDensity.Value, FlowFactor.Value, overpack),
                [.. Voids.Steps, .. SiteDensity.Steps, .. smallest.Steps, .. largest.Steps]);
    }

    /// <summary>
    /// Seconds of each of a number of like shots into a space: low enough that the smallest void is not overfilled and high
    /// enough that the largest is filled, wherever in its spread the output lies.
    /// </summary>
    public Derived<ShotSeconds> SecondsByMass(FillSpace space, Ratio overpack, int shots)
    {
        var needed = NeededMass(space, overpack);
        if (Gaps.Of(needed.Gap, Output.Gap) is { } gap)
        {
            return Derived<ShotSeconds>.Without(gap);
        }

        var plan = FillMass.ToPlan(needed.Value, OutputSpread, _parameters.OutputEnds.Factor);
        if (!plan.HasValue)
        {
            return Derived<ShotSeconds>.Without(Verdict.OutOfRange(plan.Refusal!));
        }

        var each = new FillMassRange(plan.Value.Low / shots, plan.Value.Aim / shots, plan.Value.High / shots);
        return Derived<ShotSeconds>.From(FillMass.SecondsFor(each, Output.Value), [.. needed.Steps, .. Output.Steps, .. plan.Steps]);
    }

    /// <summary>How high a shot can rise in its space, read at minimum-fill density in the smallest void.</summary>
    public Derived<Length> Rise(Duration shot, double flowFactor)
    {
        var mass = MassOf(shot);
        return Gaps.Of(mass.Gap, Voids.Gap, SiteDensity.Gap) is { } gap
            ? Derived<Length>.Without(gap)
            : Derived<Length>.From(
                FillMass.Rise(mass.Value.High, Voids.Value.Smallest, SiteDensity.Value, flowFactor),
                [.. Output.Steps, .. mass.Steps, .. Voids.Steps, .. SiteDensity.Steps]);
    }

    /// <summary>How high a shot is likely to rise: the mass aimed at, in the nominal void, at this steel's flow factor.</summary>
    public Derived<Length> LikelyRise(Duration shot)
    {
        var mass = MassOf(shot);
        return Gaps.Of(mass.Gap, Voids.Gap, SiteDensity.Gap, FlowFactor.Gap) is { } gap
            ? Derived<Length>.Without(gap)
            : Derived<Length>.From(FillMass.Rise(mass.Value.Aim, Voids.Value.Smallest, SiteDensity.Value, FlowFactor.Value));
    }

    /// <summary>The holes of a list that open into a space; missing where it is not known how high one is.</summary>
    public Derived<ImmutableArray<Hole>> HolesIn(FillSpace space, HoleList? holes, string property)
    {
        if (holes is null)
        {
            return Derived<ImmutableArray<Hole>>.Missing(Fill, property);
        }

        if (space.IsOnly)
        {
            return Derived<ImmutableArray<Hole>>.Of(holes.Holes);
        }

        return Gaps.Of(holes.Holes.Where(hole => hole.Height is null).Select(hole => Verdict.Missing(hole, nameof(Hole.Height)))) is { } gap
            ? Derived<ImmutableArray<Hole>>.Without(gap)
            : Derived<ImmutableArray<Hole>>.Of([.. holes.Holes.Where(hole => space.Holds(hole.Height!.Value))]);
    }

    /// <summary>
    /// Pressure of the air that leaves a space at the fastest rise. The fill hole does not count: the nozzle is in it. Air
    /// only: once foam has reached the last vent there is no number.
    /// </summary>
    public Derived<Pressure> AirPressure(FillSpace space)
    {
        var vents = HolesIn(space, Fill.VentHoles, nameof(CavityFill.VentHoles));
        var flow = AirFlow();
        var unmeasured = vents.Gap is null
            ? Gaps.Of(vents.Value.Where(hole => hole is { Diameter: null, OpenArea: null }).Select(hole => Verdict.Missing(hole, nameof(Hole.Diameter))))
            : vents.Gap;
        if (Gaps.Of(unmeasured, flow.Gap) is { } gap)
        {
            return Derived<Pressure>.Without(gap);
        }

        var areas = vents.Value.Select(hole => hole.OpenArea is { } open ? Calculated<Area>.From(open) : CavityPressure.HoleArea(hole.Diameter!.Value)).ToList();
        if ((areas.Select(area => area.Refusal).FirstOrDefault(refusal => refusal is not null)) is { } refused)
        {
            return Derived<Pressure>.Without(Verdict.OutOfRange(refused));
        }

        return Derived<Pressure>.From(
            CavityPressure.BackPressure(
                flow.Value.Peak, [.. areas.Select(area => new OpenVent(area.Value, VentState.Open))],
                _parameters.DischargeCoefficient.Factor, _parameters.AirDensity.As<Density>()),
            flow.Steps);
    }

    /// <summary>The diameter of one round vent that holds a pressure at the fastest rise.</summary>
    public Derived<Length> VentFor(Pressure pressure)
    {
        var flow = AirFlow();
        if (flow.Gap is { } gap)
        {
            return Derived<Length>.Without(gap);
        }

        var needed = CavityPressure.VentFor(flow.Value.Peak, pressure, _parameters.DischargeCoefficient.Factor, _parameters.AirDensity.As<Density>());
        return needed.HasValue ? Derived<Length>.Of(needed.Value.Diameter, needed.Steps) : Derived<Length>.Without(Verdict.OutOfRange(needed.Refusal!));
    }

    // Air leaves as fast as the foam's volume grows. The output counts without its lag here.
    private Derived<VentFlow> AirFlow()
    {
        var rate = Facts.Job.Gear.Output is { } given ? Derived<MassFlow>.Of(given)
            : Output.Gap is { } unknown ? Derived<MassFlow>.Without(unknown) : Derived<MassFlow>.Of(Output.Value.Rate, Output.Steps);
        return Gaps.Of(rate.Gap, SiteDensity.Gap) is { } gap
            ? Derived<VentFlow>.Without(gap)
            : Derived<VentFlow>.From(
                CavityPressure.AirFlow(rate.Value, SiteDensity.Value, Facts.Sheet.PeakRiseFactor ?? _parameters.PeakRiseFactor.Factor),
                [.. rate.Steps, .. SiteDensity.Steps]);
    }

    private Derived<VoidAreas> FindVoids()
    {
        if (Fill.Section is not null)
        {
            return Section.Gap is { } gap
                ? Derived<VoidAreas>.Without(gap)
                : Derived<VoidAreas>.Of(new VoidAreas(Section.Value.VoidAtNominalWall, Section.Value.VoidAtDesignWall), Section.Steps);
        }

        return Fill.VoidArea is { } area
            ? Derived<VoidAreas>.Of(new VoidAreas(area, area))
            : Derived<VoidAreas>.Missing(Fill, Fill.Cavity is CavityKind.SteelSection ? nameof(CavityFill.Section) : nameof(CavityFill.VoidArea));
    }

    private Derived<ImmutableArray<FillSpace>> FindSpaces()
    {
        if (Fill.Compartments.IsEmpty)
        {
            return Fill.Height is { } height
                ? Derived<ImmutableArray<FillSpace>>.Of([new FillSpace(1, Length.Zero, height, true)])
                : Derived<ImmutableArray<FillSpace>>.Missing(Fill, nameof(CavityFill.Height));
        }

        var gaps = Fill.Compartments.SelectMany(compartment => new[]
        {
            compartment.From is null ? Verdict.Missing(compartment, nameof(Compartment.From)) : null,
            compartment.To is null ? Verdict.Missing(compartment, nameof(Compartment.To)) : null,
        });
        return Gaps.Of(gaps) is { } gap
            ? Derived<ImmutableArray<FillSpace>>.Without(gap)
            : Derived<ImmutableArray<FillSpace>>.Of([.. Fill.Compartments.Select((compartment, index) =>
                new FillSpace(index + 1, compartment.From!.Value, compartment.To!.Value, Fill.Compartments.Length == 1))]);
    }

    // The sheet's densities were measured at sea level where it is silent: the contract says so.
    private Derived<Density> FindSiteDensity()
    {
        var (sheet, site) = (Facts.Sheet, Facts.Job.Site);
        var missing = Gaps.Of(
            sheet.FreeRiseDensity is null ? Verdict.Missing(sheet, nameof(Product.FreeRiseDensity)) : null,
            site.Altitude is null ? Verdict.Missing(site, nameof(Site.Altitude)) : null);
        if (missing is not null)
        {
            return Derived<Density>.Without(missing);
        }

        var here = FillMass.StandardPressure(site.Altitude!.Value);
        var there = FillMass.StandardPressure(sheet.SheetAltitude ?? Length.Zero);
        return (here.Refusal ?? there.Refusal) is { } refusal
            ? Derived<Density>.Without(Verdict.OutOfRange(refusal))
            : Derived<Density>.From(FillMass.SiteFreeRiseDensity(sheet.FreeRiseDensity!.Value, here.Value, there.Value), [.. here.Steps, .. there.Steps]);
    }

    private Derived<Output> FindOutput()
    {
        var gear = Facts.Job.Gear;
        if (gear is { Output: { } rate, TriggerLag: { } lag })
        {
            return Derived<Output>.Of(new Output(rate, lag));
        }

        var weighed = WeighedShots();
        return weighed.Select(shot => shot.Time.Seconds).Distinct().Count() > 1
            ? Derived<Output>.From(FillMass.OutputFrom(weighed))
            : Derived<Output>.Missing(gear, gear.Output is null ? nameof(Gear.Output) : nameof(Gear.TriggerLag));
    }

    private ImmutableArray<WeighedShot> WeighedShots() =>
        [.. (Fill.TestShots?.Shots ?? []).Where(shot => shot is { TriggerTime: not null, Mass: not null }).Select(shot => new WeighedShot(shot.TriggerTime!.Value, shot.Mass!.Value))];

    private Derived<double> FindFlowFactor()
    {
        var sheet = Facts.Sheet;
        var missing = sheet.FlowFactor is null ? Verdict.Missing(sheet, nameof(Product.FlowFactor)) : null;
        if (!HasSteelWalls)
        {
            return missing is null ? Derived<double>.Of(sheet.FlowFactor!.Value) : Derived<double>.Without(missing);
        }

        var gap = Gaps.Of(
            missing,
            Fill.SteelTemperature is null ? Verdict.Missing(Fill, nameof(CavityFill.SteelTemperature)) : null,
            Fill.TestShots is not { } tests ? Verdict.Missing(Fill, nameof(CavityFill.TestShots))
                : tests.SteelTemperature is null ? Verdict.Missing(tests, nameof(Model.TestShots.SteelTemperature)) : null);
        if (gap is not null)
        {
            return Derived<double>.Without(gap);
        }

        var (now, then) = (Fill.SteelTemperature!.Value, Fill.TestShots!.SteelTemperature!.Value);
        var apart = TemperatureDelta.FromKelvins(Math.Abs(now.Kelvins - then.Kelvins));
        return Quantities.Compare(apart, _parameters.SteelLikeTests.As<TemperatureDelta>()) > 0
            ? Derived<double>.Without(Verdict.Undetermined("other-steel").With("steel", now).With("tested", then)
                .On(Fill, nameof(CavityFill.SteelTemperature), now).RestingOn(_parameters.SteelLikeTests))
            : Derived<double>.Of(sheet.FlowFactor!.Value);
    }
}
