using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>A place in which foam is worked, with one body of air.</summary>
public sealed record WorkArea : PlanNode
{
    /// <summary>A short name that work items refer to.</summary>
    public string Id { get; init; } = "";

    /// <summary>Indoors, outdoors or on a roof.</summary>
    public Enclosure? Enclosure { get; init; }

    /// <summary>The part of the building.</summary>
    public BuildingPart? BuildingPart { get; init; }

    /// <summary>The volume of air.</summary>
    public Volume? AirVolume { get; init; }

    /// <summary>Fans and air paths.</summary>
    public Ventilation? Ventilation { get; init; }

    /// <summary>A signed, sealed enclosure around the work.</summary>
    public bool? Contained { get; init; }

    /// <summary>The distance at which unprotected people are kept out.</summary>
    public Length? ExclusionDistance { get; init; }

    /// <summary>Floors above and below are kept clear too.</summary>
    public bool? FloorsAboveAndBelowClear { get; init; }

    /// <summary>With a containment: the exhaust's outlet lies inside the exclusion zone.</summary>
    public bool? ExhaustOutletExcluded { get; init; }

    /// <summary>Spaces that share this area's air by handler, shaft, stair or unsealed wall. Present and empty: none.</summary>
    public SharedSpaceList? SharedAir { get; init; }

    /// <summary>Unprotected people are kept out of the area from the first spray to re-entry.</summary>
    public bool? UnprotectedPeopleOut { get; init; }

    /// <summary>Outdoor air intakes near the work. Present and empty: none.</summary>
    public AirIntakeList? AirIntakes { get; init; }

    /// <summary>Engines near the work, such as the rig's generator. Present and empty: none.</summary>
    public EngineList? Engines { get; init; }

    /// <summary>A carbon monoxide alarm hangs inside near the engines.</summary>
    public bool? CarbonMonoxideAlarm { get; init; }

    /// <summary>When the first foam is sprayed or poured.</summary>
    public DateTimeOffset? FirstSprayAt { get; init; }

    /// <summary>When the last spraying, trimming or solvent use in this air ends: the purge clock starts here.</summary>
    public DateTimeOffset? LastSprayAt { get; init; }

    /// <summary>When people come back.</summary>
    public Reentry? Reentry { get; init; }

    /// <summary>What is in the air while foam is worked.</summary>
    public ImmutableArray<AirborneLevel> AirborneLevels { get; init; } = [];

    /// <summary>Readings taken on site.</summary>
    public ImmutableArray<Reading> Readings { get; init; } = [];

    /// <summary>Wind screens stand around the work.</summary>
    public bool? WindScreens { get; init; }

    /// <summary>Light at the work.</summary>
    public Illuminance? Light { get; init; }

    /// <summary>The least number of people in the zone at any time.</summary>
    public int? PeopleInZone { get; init; }

    /// <summary>Work at night.</summary>
    public bool? NightWork { get; init; }

    /// <summary>At night: someone outside is checked in with, and rescue is in reach.</summary>
    public bool? NightCheckIn { get; init; }

    /// <summary>Hot work (welding, cutting, grinding, torches) within or near the area. Present and empty: none.</summary>
    public HotWorkList? HotWork { get; init; }

    /// <summary>How people reach the work.</summary>
    public Access? Access { get; init; }

    /// <summary>The competent person's decision on confined space.</summary>
    public ConfinedSpace? ConfinedSpace { get; init; }

    /// <summary>Two ways out, or the one kept behind the sprayer, hoses clear of it; in an attic or crawl space an attendant outside.</summary>
    public bool? EscapeKept { get; init; }

    /// <summary>Asbestos-style negative pressure is part of the plan.</summary>
    public bool? NegativePressurePlanned { get; init; }

    /// <summary>Open-flue appliances draw from this air.</summary>
    public bool? OpenFlueAppliances { get; init; }

    /// <summary>Those appliances are off while foam is worked.</summary>
    public bool? OpenFlueAppliancesOff { get; init; }

    /// <summary>Eyewash near the work.</summary>
    public Eyewash? Eyewash { get; init; }

    /// <summary>How heat strain is managed.</summary>
    public HeatPlan? Heat { get; init; }

    /// <summary>When the shift of the first day starts; later days keep the same clock times.</summary>
    public DateTimeOffset? ShiftStartsAt { get; init; }

    /// <summary>When that shift ends.</summary>
    public DateTimeOffset? ShiftEndsAt { get; init; }

    /// <summary>The nearest fire extinguisher.</summary>
    public Extinguisher? Extinguisher { get; init; }

    /// <summary>Flames and sparks in the area.</summary>
    public IgnitionSources? IgnitionSources { get; init; }

    /// <summary>The air of appliances that burn with an open flame.</summary>
    public CombustionAir? CombustionAir { get; init; }

    /// <summary>Water on the faces that foam will meet.</summary>
    public FaceWater? FaceWater { get; init; }

    /// <summary>What keeps spray where it belongs.</summary>
    public OversprayControl? Overspray { get; init; }

    /// <summary>How dust of concrete, block and brick is kept down.</summary>
    public SilicaControl? Silica { get; init; }

    /// <summary>How cold work is warmed.</summary>
    public Heating? Heating { get; init; }

    /// <summary>The building's own heating, cooling and ventilation.</summary>
    public BuildingAir? BuildingAir { get; init; }

    /// <summary>How the crew leaves the work without taking foam along.</summary>
    public CleanLeaving? CleanLeaving { get; init; }

    /// <summary>How a person is brought out of a harness or a permit space.</summary>
    public RescuePlan? Rescue { get; init; }

    /// <summary>Overhead lines that a lift, a scaffold, a hose or a pole could come near. Present and empty: none.</summary>
    public PowerLineList? PowerLines { get; init; }
}

/// <summary>Indoors, outdoors or on a roof.</summary>
public enum Enclosure
{
    /// <summary>Under a roof, with walls or screens that hold the air.</summary>
    Interior = 1,

    /// <summary>In the open, on a wall or the ground.</summary>
    Exterior = 2,

    /// <summary>On a roof.</summary>
    Roof = 3,
}

/// <summary>The part of the building.</summary>
public enum BuildingPart
{
    /// <summary>A room, hall, dock or corridor.</summary>
    Room = 1,

    /// <summary>An attic.</summary>
    Attic = 2,

    /// <summary>A crawl space.</summary>
    CrawlSpace = 3,

    /// <summary>A vault, pit, tank or shaft.</summary>
    Vault = 4,

    /// <summary>A basement.</summary>
    Basement = 5,

    /// <summary>Outside the building's shell.</summary>
    Outside = 6,
}

/// <summary>Fans and air paths.</summary>
public sealed record Ventilation : PlanNode
{
    /// <summary>Fans exhaust the area.</summary>
    public bool? MechanicalExhaust { get; init; }

    /// <summary>Make-up air has a planned way in.</summary>
    public bool? MakeUpAir { get; init; }

    /// <summary>The exhaust's flow.</summary>
    public VolumeFlow? ExhaustFlow { get; init; }

    /// <summary>Mixing factor K: 1 is perfect mixing, about 3 fair, up to 10 dead corners. The effective air change is n/K.</summary>
    public double? MixingFactor { get; init; }

    /// <summary>How far the area's pressure lies below its surroundings.</summary>
    public Pressure? NegativePressure { get; init; }

    /// <summary>How long the fans stay on after the last spraying.</summary>
    public Duration? RunsOnFor { get; init; }

    /// <summary>Someone watches that the fans stay on until then.</summary>
    public bool? RunOnConfirmed { get; init; }

    /// <summary>Air comes in on the side opposite the exhaust, so that it sweeps the whole work.</summary>
    public bool? SupplyOppositeExhaust { get; init; }

    /// <summary>The exhaust draws close to the work.</summary>
    public bool? ExhaustNearWork { get; init; }

    /// <summary>A filter against particles sits before the fan.</summary>
    public bool? FilterBeforeFan { get; init; }

    /// <summary>The discharge blows away from people and from air intakes.</summary>
    public bool? DischargeClear { get; init; }
}

/// <summary>A list of spaces that share air: absent is "not given", present and empty is "none".</summary>
public sealed record SharedSpaceList : PlanNode
{
    /// <summary>The spaces.</summary>
    public ImmutableArray<SharedSpace> Spaces { get; init; } = [];
}

/// <summary>A space that shares the area's air.</summary>
public sealed record SharedSpace : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>Unprotected people are out of it from the first spray to re-entry.</summary>
    public bool? PeopleOut { get; init; }
}

/// <summary>A list of air intakes: absent is "not given", present and empty is "none".</summary>
public sealed record AirIntakeList : PlanNode
{
    /// <summary>The intakes.</summary>
    public ImmutableArray<AirIntake> Intakes { get; init; } = [];
}

/// <summary>An outdoor air intake near the work.</summary>
public sealed record AirIntake : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>Closed and covered while foam is worked.</summary>
    public bool? Closed { get; init; }

    /// <summary>Distance from the work or the exhaust's outlet.</summary>
    public Length? Distance { get; init; }

    /// <summary>It lies upwind.</summary>
    public bool? Upwind { get; init; }
}

/// <summary>A list of engines: absent is "not given", present and empty is "none".</summary>
public sealed record EngineList : PlanNode
{
    /// <summary>The engines.</summary>
    public ImmutableArray<Engine> Engines { get; init; } = [];
}

/// <summary>A combustion engine near the work.</summary>
public sealed record Engine : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>It stands outdoors.</summary>
    public bool? Outdoors { get; init; }

    /// <summary>Distance from openings, intakes and the breathing-air inlet, the nearest of them.</summary>
    public Length? DistanceToOpenings { get; init; }

    /// <summary>It stands downwind of them.</summary>
    public bool? Downwind { get; init; }
}

/// <summary>When people come back, either by the clock or counted from the last spraying.</summary>
public sealed record Reentry : PlanNode
{
    /// <summary>Other trades come back at.</summary>
    public DateTimeOffset? TradesAt { get; init; }

    /// <summary>Other trades come back so long after the last spraying.</summary>
    public Duration? TradesAfter { get; init; }

    /// <summary>Occupants come back at.</summary>
    public DateTimeOffset? OccupantsAt { get; init; }

    /// <summary>Occupants come back so long after the last spraying.</summary>
    public Duration? OccupantsAfter { get; init; }

    /// <summary>Dust and trimmings are cleaned up before occupants come back.</summary>
    public bool? Cleaned { get; init; }

    /// <summary>Covers on air handling stay on until then and come off before occupants come back.</summary>
    public bool? CoversOff { get; init; }

    /// <summary>An odour is noticed when people are about to come back.</summary>
    public bool? OdourRemains { get; init; }

    /// <summary>A sign with the clock time of return hangs at every way in.</summary>
    public bool? SignAtEveryWayIn { get; init; }
}

/// <summary>What is in the air while foam is worked.</summary>
public sealed record AirborneLevel : PlanNode
{
    /// <summary>The substance.</summary>
    public Substance? Substance { get; init; }

    /// <summary>The task at which it was measured or is expected.</summary>
    public CrewTask? Task { get; init; }

    /// <summary>The expected peak over the limit's averaging time, as vapour.</summary>
    public VolumeConcentration? PeakByVolume { get; init; }

    /// <summary>The expected peak over the limit's averaging time, as aerosol and vapour.</summary>
    public MassConcentration? PeakByMass { get; init; }

    /// <summary>Where the figure comes from, such as a survey's number.</summary>
    public string? Basis { get; init; }

    /// <summary>The level when spraying stops, for the purge.</summary>
    public MassConcentration? AtEndByMass { get; init; }

    /// <summary>The level when spraying stops, for the purge.</summary>
    public VolumeConcentration? AtEndByVolume { get; init; }

    /// <summary>The level that must be reached before people without respirators come back; the rule set's limit stands where none is given.</summary>
    public MassConcentration? ReturnLimitByMass { get; init; }

    /// <summary>The level that must be reached before people without respirators come back.</summary>
    public VolumeConcentration? ReturnLimitByVolume { get; init; }

    /// <summary>The foam is known to give off none of it after spraying: the pure decay holds.</summary>
    public bool? NoSourceAfterSpraying { get; init; }

    /// <summary>What the fresh foam gives off at the end of spraying, per hour and volume of the area, as a concentration per hour.</summary>
    public MassConcentration? SourcePerHourByMass { get; init; }

    /// <summary>The rate, per hour, at which that source dies away; 0 is a source that does not.</summary>
    public Frequency? SourceDecay { get; init; }
}

/// <summary>A substance in the air.</summary>
public enum Substance
{
    /// <summary>Methylene diphenyl diisocyanate.</summary>
    Mdi = 1,

    /// <summary>Amine catalyst.</summary>
    Amine = 2,

    /// <summary>Blowing agent.</summary>
    BlowingAgent = 3,

    /// <summary>Anything else.</summary>
    Other = 4,
}

/// <summary>What a person does.</summary>
public enum CrewTask
{
    /// <summary>Holds the gun, spraying.</summary>
    Spray = 1,

    /// <summary>Helps near the gun.</summary>
    Assist = 2,

    /// <summary>Pours or injects into a cavity.</summary>
    Pour = 3,

    /// <summary>Trims, cuts or sands foam.</summary>
    Trim = 4,

    /// <summary>Drills holes.</summary>
    Drill = 5,

    /// <summary>Cleans up after spraying.</summary>
    CleanUp = 6,

    /// <summary>Handles drums and hoses.</summary>
    Drums = 7,

    /// <summary>Watches or supervises inside the zone.</summary>
    Watch = 8,
}

/// <summary>Something measured on site.</summary>
public sealed record Reading : PlanNode
{
    /// <summary>What was measured.</summary>
    public ReadingKind Kind { get; init; }

    /// <summary>When.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>By whom.</summary>
    public string? By { get; init; }

    /// <summary>Where in the area, such as "mid-bay, shaded".</summary>
    public string? Place { get; init; }

    /// <summary>The work item whose surface it is, where it is one item's.</summary>
    public string? Work { get; init; }

    /// <summary>A temperature.</summary>
    public Temperature? Temperature { get; init; }

    /// <summary>A relative humidity or a moisture content.</summary>
    public Ratio? Humidity { get; init; }

    /// <summary>A speed of wind, as a gust at the height of the work.</summary>
    public Speed? Speed { get; init; }

    /// <summary>Oxygen by volume.</summary>
    public Ratio? Oxygen { get; init; }

    /// <summary>A share of the lower flammable limit.</summary>
    public Ratio? LowerFlammableLimit { get; init; }

    /// <summary>Taken continuously through the work.</summary>
    public bool? Continuous { get; init; }

    /// <summary>Below freezing: the humidity was read over ice; otherwise it is taken as over water.</summary>
    public bool? OverIce { get; init; }
}

/// <summary>What a reading measured.</summary>
public enum ReadingKind
{
    /// <summary>Air temperature.</summary>
    AirTemperature = 1,

    /// <summary>Surface temperature of the substrate.</summary>
    SurfaceTemperature = 2,

    /// <summary>Relative humidity of the air.</summary>
    RelativeHumidity = 3,

    /// <summary>Wind gust at the height of the work.</summary>
    WindGust = 4,

    /// <summary>Moisture content of wood.</summary>
    WoodMoisture = 5,

    /// <summary>Surface temperature of the last pass, before the next.</summary>
    FoamSurfaceTemperature = 6,

    /// <summary>Temperature of a probe at mid-depth of the last pass.</summary>
    FoamCoreTemperature = 7,

    /// <summary>Oxygen and flammable gas in a confined space.</summary>
    GasTest = 8,
}

/// <summary>A list of hot work: absent is "not given", present and empty is "none".</summary>
public sealed record HotWorkList : PlanNode
{
    /// <summary>The hot work.</summary>
    public ImmutableArray<HotWork> Items { get; init; } = [];
}

/// <summary>Welding, cutting, grinding, torches.</summary>
public sealed record HotWork : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>Distance from foam.</summary>
    public Length? DistanceToFoam { get; init; }

    /// <summary>When, against the foam.</summary>
    public HotWorkTiming? Timing { get; init; }

    /// <summary>A fire watch stands by during the work and afterwards for so long.</summary>
    public Duration? WatchAfter { get; init; }

    /// <summary>A fire watch is named.</summary>
    public bool? FireWatch { get; init; }

    /// <summary>Foam is shielded.</summary>
    public bool? Shielded { get; init; }

    /// <summary>An extinguisher is at hand.</summary>
    public bool? ExtinguisherAtHand { get; init; }

    /// <summary>The far side of walls, floors and members is watched too.</summary>
    public bool? FarSideWatched { get; init; }

    /// <summary>A work item whose member, or what touches it, is heated.</summary>
    public string? Member { get; init; }
}

/// <summary>A fire extinguisher.</summary>
public sealed record Extinguisher : PlanNode
{
    /// <summary>Its distance from the work.</summary>
    public Length? Distance { get; init; }

    /// <summary>Its rating for solids, such as 2 of 2-A:20-B:C.</summary>
    public int? ClassA { get; init; }

    /// <summary>Its rating for liquids, such as 20 of 2-A:20-B:C.</summary>
    public int? ClassB { get; init; }

    /// <summary>It may be used on live equipment.</summary>
    public bool? ClassC { get; init; }

    /// <summary>It bears another country's rating that the local authority takes for equal.</summary>
    public bool? LocalEqual { get; init; }
}

/// <summary>Flames and sparks in an area, from the first foam until the air is clear. Where there are none, every answer is yes.</summary>
public sealed record IgnitionSources : PlanNode
{
    /// <summary>Pilot lights are out.</summary>
    public bool? PilotsOut { get; init; }

    /// <summary>Heaters are off.</summary>
    public bool? HeatersOff { get; init; }

    /// <summary>What makes sparks is off.</summary>
    public bool? SparksOff { get; init; }
}

/// <summary>The air of appliances that burn with an open flame.</summary>
public sealed record CombustionAir : PlanNode
{
    /// <summary>They keep their air: no opening is foamed shut, or they get air of their own from outside.</summary>
    public bool? Kept { get; init; }

    /// <summary>Draft and carbon monoxide are tested before people come back; before the work: it is planned so.</summary>
    public bool? TestedBeforeReturn { get; init; }
}

/// <summary>When hot work is done, against the foam.</summary>
public enum HotWorkTiming
{
    /// <summary>Finished before the first foam.</summary>
    BeforeFoam = 1,

    /// <summary>While foam is applied, uncured, or vapours remain.</summary>
    DuringFoam = 2,

    /// <summary>After the foam has cured and the air is clear.</summary>
    AfterCure = 3,
}

/// <summary>How people reach the work.</summary>
public sealed record Access : PlanNode
{
    /// <summary>What people stand on.</summary>
    public AccessKind? Kind { get; init; }

    /// <summary>The height of a possible fall.</summary>
    public Length? FallHeight { get; init; }

    /// <summary>What keeps people from falling.</summary>
    public ImmutableArray<FallProtection> Protection { get; init; } = [];

    /// <summary>The pitch of the roof, rise over run, such as 33.3 % for 4:12.</summary>
    public Ratio? RoofSlope { get; init; }

    /// <summary>The width of the roof.</summary>
    public Length? RoofWidth { get; init; }

    /// <summary>Every hole and skylight on the work's roof or floor is covered, guarded or tied off.</summary>
    public bool? HolesCovered { get; init; }

    /// <summary>The height of a parapet that is to count as a guard.</summary>
    public Length? ParapetHeight { get; init; }

    /// <summary>A parapet is to count as the guard of an edge.</summary>
    public bool? ParapetAsGuard { get; init; }

    /// <summary>That parapet bears 200 lb (890 N) at its top, outward or down.</summary>
    public bool? ParapetStrong { get; init; }

    /// <summary>In a boom lift: each person's harness is tied to the boom or the basket.</summary>
    public bool? TiedToBoomOrBasket { get; init; }

    /// <summary>The greatest wind on the lift's own plate.</summary>
    public Speed? LiftWindLimit { get; init; }

    /// <summary>Heavy tools hang on tethers.</summary>
    public bool? ToolsTethered { get; init; }

    /// <summary>The ground below is barricaded, and nobody enters it.</summary>
    public bool? DropZoneBarricaded { get; init; }

    /// <summary>People climb to the work by ladder.</summary>
    public bool? ByLadder { get; init; }

    /// <summary>That ladder.</summary>
    public LadderCheck? Ladder { get; init; }

    /// <summary>A competent person has inspected the scaffold this shift.</summary>
    public bool? ScaffoldInspected { get; init; }

    /// <summary>The lift and who drives it.</summary>
    public LiftCheck? Lift { get; init; }
}

/// <summary>How a ladder stands and what it is used for.</summary>
public sealed record LadderCheck : PlanNode
{
    /// <summary>How far its side rails stand above the landing.</summary>
    public Length? AboveLanding { get; init; }

    /// <summary>Its foot stands out a quarter of its working length.</summary>
    public bool? OneInFour { get; init; }

    /// <summary>It is tied, or held so that it cannot slip.</summary>
    public bool? Tied { get; init; }

    /// <summary>It is for getting there only: nobody sprays or pours from it.</summary>
    public bool? AccessOnly { get; init; }
}

/// <summary>A lift and who drives it.</summary>
public sealed record LiftCheck : PlanNode
{
    /// <summary>Whoever drives it is trained on this kind of lift.</summary>
    public bool? OperatorTrained { get; init; }

    /// <summary>The ground or the floor bears it, is level, and has no hole or edge in its way.</summary>
    public bool? GroundSound { get; init; }

    /// <summary>The gate or the chain of the platform is shut while it is up.</summary>
    public bool? GateShut { get; init; }
}

/// <summary>What people stand on.</summary>
public enum AccessKind
{
    /// <summary>The ground or a floor with no edge in reach.</summary>
    Ground = 1,

    /// <summary>A floor, deck or ledge with an edge.</summary>
    WalkingSurface = 2,

    /// <summary>A roof on which roofing work is done.</summary>
    Roof = 3,

    /// <summary>A scaffold.</summary>
    Scaffold = 4,

    /// <summary>A boom lift or other aerial device.</summary>
    BoomLift = 5,

    /// <summary>A scissor lift.</summary>
    ScissorLift = 6,

    /// <summary>A ladder.</summary>
    Ladder = 7,
}

/// <summary>What keeps people from falling.</summary>
public enum FallProtection
{
    /// <summary>Nothing.</summary>
    None = 1,

    /// <summary>Guardrail.</summary>
    Guardrail = 2,

    /// <summary>Safety net.</summary>
    Net = 3,

    /// <summary>Personal fall arrest.</summary>
    Arrest = 4,

    /// <summary>Travel restraint.</summary>
    Restraint = 5,

    /// <summary>Warning line.</summary>
    WarningLine = 6,

    /// <summary>Safety monitor.</summary>
    Monitor = 7,
}

/// <summary>The competent person's decision on confined space.</summary>
public sealed record ConfinedSpace : PlanNode
{
    /// <summary>The decision.</summary>
    public ConfinedSpaceClass? Classification { get; init; }

    /// <summary>Who decided.</summary>
    public string? ClassifiedBy { get; init; }

    /// <summary>A permit is written.</summary>
    public bool? Permit { get; init; }

    /// <summary>An attendant stands outside.</summary>
    public bool? Attendant { get; init; }

    /// <summary>Oxygen, flammable gas and carbon monoxide are measured all the time.</summary>
    public bool? ContinuousMonitoring { get; init; }

    /// <summary>Everyone inside wears an air-supplied set.</summary>
    public bool? AirSuppliedSets { get; init; }

    /// <summary>Others' work is stopped while people are inside.</summary>
    public bool? OtherWorkStopped { get; init; }
}

/// <summary>The competent person's decision on confined space.</summary>
public enum ConfinedSpaceClass
{
    /// <summary>Not a confined space.</summary>
    NotConfined = 1,

    /// <summary>A confined space with no hazard that asks for a permit.</summary>
    Confined = 2,

    /// <summary>A permit-required confined space.</summary>
    PermitRequired = 3,
}

/// <summary>Eyewash near the work.</summary>
public sealed record Eyewash : PlanNode
{
    /// <summary>Seconds to reach it.</summary>
    public Duration? Reach { get; init; }

    /// <summary>Its flow.</summary>
    public VolumeFlow? Flow { get; init; }

    /// <summary>How long it flows.</summary>
    public Duration? Lasts { get; init; }

    /// <summary>The water's temperature.</summary>
    public Temperature? WaterTemperature { get; init; }
}

/// <summary>How heat strain is managed.</summary>
public sealed record HeatPlan : PlanNode
{
    /// <summary>Cool water is at hand.</summary>
    public bool? Water { get; init; }

    /// <summary>Rests are planned.</summary>
    public bool? Rests { get; init; }

    /// <summary>New and returning workers are eased in.</summary>
    public bool? Acclimatization { get; init; }

    /// <summary>Suits that let no vapour through are counted when rests are planned.</summary>
    public bool? SuitsCounted { get; init; }
}
