using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Hazards;

/// <summary>All hazard rules, listed one by one: a rule that is not listed is not loaded.</summary>
public static class HazardRules
{
    /// <summary>New instances of all hazard rules.</summary>
    public static ImmutableArray<IHazardRule> Create() =>
    [
        new WrongFoam(), new WrongFoamInProduct(), new HeatInFoam(), new PoorBond(), new PoorBondInArea(), new TrappedAir(), new PressureInCavity(),
        new HiddenVoid(), new HolesInMember(), new FoamThatBurns(), new Ignition(), new IgnitionInArea(), new OffRatioFoam(), new IsocyanateInAir(),
        new IsocyanateBreathed(), new BystandersExposed(), new SkinAndEyeContact(), new EngineExhaust(), new Fall(), new NoWayOut(),
        new HiddenServices(), new HarmfulDust(), new StrainOnPerson(), new StrainInArea(), new Unrecorded(),
        new SkinAndEyeContactInArea(), new HeatInFoamInArea(), new ColdAndDamp(),
        new FoamThatBurnsInBuilding(), new OffRatioFoamInProduct(), new PressureInGear(), new FlueGas(), new UnrecordedInProduct(), new UnrecordedInWork(),
        new HarmfulDustInArea(), new BystandersOfJob(), new NeedOfRescue(), new LivePower(), new LivePowerInArea(),
    ];
}

/// <summary>Each piece of work can be done with the wrong foam.</summary>
public sealed class WrongFoam : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.WrongFoam;
}

/// <summary>A product that is used can be too old, too cold or not permitted.</summary>
public sealed class WrongFoamInProduct : HazardRule<ProductFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.WrongFoam;

    /// <inheritdoc/>
    protected override bool Arises(ProductFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>All foam heats itself as it rises.</summary>
public sealed class HeatInFoam : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HeatInFoam;
}

/// <summary>Foam on a cold, wet or dirty surface lets go.</summary>
public sealed class PoorBond : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.PoorBond;
}

/// <summary>Cold, damp or windy air spoils all foam in an area.</summary>
public sealed class PoorBondInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.PoorBond;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>A closed cavity is full of air before it is full of foam.</summary>
public sealed class TrappedAir : StandingHazard<FillFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.TrappedAir;
}

/// <summary>Foam that rises in a closed cavity presses on its walls.</summary>
public sealed class PressureInCavity : StandingHazard<FillFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.PressureInCavity;
}

/// <summary>Nobody sees into a closed cavity.</summary>
public sealed class HiddenVoid : StandingHazard<FillFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HiddenVoid;
}

/// <summary>A cavity is filled through holes.</summary>
public sealed class HolesInMember : StandingHazard<FillFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HolesInMember;
}

/// <summary>All foam burns.</summary>
public sealed class FoamThatBurns : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.FoamThatBurns;
}

/// <summary>Foam, waste and filled members can be set alight.</summary>
public sealed class Ignition : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Ignition;
}

/// <summary>Hot work near foam.</summary>
public sealed class IgnitionInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Ignition;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>All foam is mixed from two components.</summary>
public sealed class OffRatioFoam : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.OffRatioFoam;
}

/// <summary>Foam work puts isocyanate into the air of its area.</summary>
public sealed class IsocyanateInAir : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Whoever works there breathes it.</summary>
public sealed class IsocyanateBreathed : HazardRule<PersonFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.IsocyanateInAir;

    /// <inheritdoc/>
    protected override bool Arises(PersonFacts bearer) => bearer.Areas.Any();
}

/// <summary>Others breathe it too.</summary>
public sealed class BystandersExposed : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.BystandersExposed;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Whoever works with foam can get it on skin and into eyes.</summary>
public sealed class SkinAndEyeContact : HazardRule<PersonFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.SkinAndEyeContact;

    /// <inheritdoc/>
    protected override bool Arises(PersonFacts bearer) => bearer.Areas.Any();
}

/// <summary>Where foam is worked, whoever is there can get it on skin and into eyes.</summary>
public sealed class SkinAndEyeContactInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.SkinAndEyeContact;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Engines near the work, unless the plan says that there are none.</summary>
public sealed class EngineExhaust : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.EngineExhaust;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0 && bearer.Area.Engines is not { Engines.IsEmpty: true };
}

/// <summary>People can fall, unless they stand on the ground.</summary>
public sealed class Fall : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Fall;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0 && bearer.Area.Access is not { Kind: AccessKind.Ground };
}

/// <summary>People work in a place that is hard to leave: anywhere but in the open, and in the open a pit.</summary>
public sealed class NoWayOut : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.NoWayOut;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0
        && bearer.Area is not { Enclosure: Enclosure.Exterior, ConfinedSpace: null, BuildingPart: not (BuildingPart.Vault or BuildingPart.CrawlSpace or BuildingPart.Attic) };
}

/// <summary>Drilling and filling meet what is hidden.</summary>
public sealed class HiddenServices : HazardRule<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HiddenServices;

    /// <inheritdoc/>
    protected override bool Arises(JobFacts bearer) => bearer.Work.Any(work => work is FillFacts) || bearer.Site.ExistingBuilding is not false;
}

/// <summary>Old buildings hold asbestos and lead.</summary>
public sealed class HarmfulDust : HazardRule<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HarmfulDust;

    /// <inheritdoc/>
    protected override bool Arises(JobFacts bearer) => bearer.Site.ExistingBuilding is not false;
}

/// <summary>Noise, heat and suits strain whoever works.</summary>
public sealed class StrainOnPerson : HazardRule<PersonFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Strain;

    /// <inheritdoc/>
    protected override bool Arises(PersonFacts bearer) => bearer.Areas.Any();
}

/// <summary>Heat, darkness and working alone strain a crew.</summary>
public sealed class StrainInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Strain;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Every job rests on decisions.</summary>
public sealed class Unrecorded : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Unrecorded;
}

/// <summary>Where foam is worked, a day without time shortens the waits in which it cools.</summary>
public sealed class HeatInFoamInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Foam that is part of an envelope has warm, moist air on one side and cold on the other, unless the plan says that it is not.</summary>
public sealed class ColdAndDamp : HazardRule<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.ColdAndDamp;

    /// <inheritdoc/>
    protected override bool Arises(WorkFacts bearer) => bearer.Item.Envelope is not { AtEnvelope: false };
}

/// <summary>A fire in foam meets everyone in the building.</summary>
public sealed class FoamThatBurnsInBuilding : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.FoamThatBurns;
}

/// <summary>A product that is too cold, or whose drum runs empty, is not mixed as it should be.</summary>
public sealed class OffRatioFoamInProduct : HazardRule<ProductFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.OffRatioFoam;

    /// <inheritdoc/>
    protected override bool Arises(ProductFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>All foam comes out of drums and hoses under pressure.</summary>
public sealed class PressureInGear : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.PressureInGear;
}

/// <summary>Foam closes the ways by which air reaches an appliance.</summary>
public sealed class FlueGas : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.FlueGas;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>What a product's papers say must be known where it is used.</summary>
public sealed class UnrecordedInProduct : HazardRule<ProductFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override bool Arises(ProductFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Every piece of work rests on decisions.</summary>
public sealed class UnrecordedInWork : StandingHazard<WorkFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.Unrecorded;
}

/// <summary>New concrete, block and brick give off dust too.</summary>
public sealed class HarmfulDustInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.HarmfulDust;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>The people of a building breathe what is left when they come back.</summary>
public sealed class BystandersOfJob : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.BystandersExposed;
}

/// <summary>Whoever works in a harness or in a permit space may need others to get out.</summary>
public sealed class NeedOfRescue : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.NeedOfRescue;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}

/// <summary>Fans, lights and tools run from outlets.</summary>
public sealed class LivePower : StandingHazard<JobFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.LivePower;
}

/// <summary>Lifts, scaffolds, hoses and poles reach up to lines.</summary>
public sealed class LivePowerInArea : HazardRule<AreaFacts>
{
    /// <inheritdoc/>
    public override HazardKind Kind => HazardKind.LivePower;

    /// <inheritdoc/>
    protected override bool Arises(AreaFacts bearer) => bearer.Work.Count > 0;
}
