using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>A product as its data sheet describes it.</summary>
public sealed record Product : PlanNode
{
    /// <summary>A short name that work items refer to.</summary>
    public string Id { get; init; } = "";

    /// <summary>The kind of foam.</summary>
    public FoamKind? Kind { get; init; }

    /// <summary>The data sheet's revision date, ISO 8601.</summary>
    public DateOnly? SheetRevision { get; init; }

    /// <summary>The uses that the sheet lists; empty: the sheet lists none.</summary>
    public ImmutableArray<FoamUse> ListedUses { get; init; } = [];

    /// <summary>The substrates that the sheet accepts; empty: the sheet lists none.</summary>
    public ImmutableArray<AcceptedSubstrate> AcceptedSubstrates { get; init; } = [];

    /// <summary>Greatest thickness of one pass.</summary>
    public Length? MaxPassThickness { get; init; }

    /// <summary>Least thickness of one pass.</summary>
    public Length? MinPassThickness { get; init; }

    /// <summary>Least wait between passes.</summary>
    public Duration? WaitBetweenPasses { get; init; }

    /// <summary>Greatest thickness built in a day.</summary>
    public Length? MaxDailyThickness { get; init; }

    /// <summary>The surface of the last pass must be no warmer than this before the next.</summary>
    public Temperature? MaxSurfaceBeforeNextPass { get; init; }

    /// <summary>Least surface temperature at application.</summary>
    public Temperature? MinSurfaceTemperature { get; init; }

    /// <summary>Greatest surface temperature at application.</summary>
    public Temperature? MaxSurfaceTemperature { get; init; }

    /// <summary>Least air temperature at application.</summary>
    public Temperature? MinAirTemperature { get; init; }

    /// <summary>Greatest air temperature at application.</summary>
    public Temperature? MaxAirTemperature { get; init; }

    /// <summary>Greatest relative humidity at application.</summary>
    public Ratio? MaxHumidity { get; init; }

    /// <summary>Least margin of the surface above the dew point.</summary>
    public TemperatureDelta? DewPointMargin { get; init; }

    /// <summary>Greatest wind at application.</summary>
    public Speed? MaxWind { get; init; }

    /// <summary>Greatest moisture content of wood.</summary>
    public Ratio? MaxWoodMoisture { get; init; }

    /// <summary>Least age of concrete.</summary>
    public Duration? MinConcreteAge { get; init; }

    /// <summary>Greatest temperature in service.</summary>
    public Temperature? MaxServiceTemperature { get; init; }

    /// <summary>Least storage temperature of the drums.</summary>
    public Temperature? MinStorageTemperature { get; init; }

    /// <summary>Greatest storage temperature of the drums.</summary>
    public Temperature? MaxStorageTemperature { get; init; }

    /// <summary>Least temperature of the liquid when it is drawn.</summary>
    public Temperature? MinFeedTemperature { get; init; }

    /// <summary>Greatest temperature of the liquid when it is drawn.</summary>
    public Temperature? MaxFeedTemperature { get; init; }

    /// <summary>Greatest deviation of the mixing ratio from nominal.</summary>
    public Ratio? RatioTolerance { get; init; }

    /// <summary>Least temperature of either liquid at the gun.</summary>
    public Temperature? MinFluidTemperature { get; init; }

    /// <summary>Greatest temperature of either liquid at the gun.</summary>
    public Temperature? MaxFluidTemperature { get; init; }

    /// <summary>Density in place, skins and pass lines included.</summary>
    public Density? InPlaceDensity { get; init; }

    /// <summary>Core density.</summary>
    public Density? CoreDensity { get; init; }

    /// <summary>Density of the foam risen freely.</summary>
    public Density? FreeRiseDensity { get; init; }

    /// <summary>The altitude at which the sheet's densities were measured; sea level where the sheet is silent.</summary>
    public Length? SheetAltitude { get; init; }

    /// <summary>Flow factor: minimum-fill mass over void times free-rise density, from test shots; at least 1.</summary>
    public double? FlowFactor { get; init; }

    /// <summary>Greatest overpack over the minimum fill, such as 15 %.</summary>
    public Ratio? MaxOverpack { get; init; }

    /// <summary>Time to cream, from the start of mixing.</summary>
    public Duration? CreamTime { get; init; }

    /// <summary>Time to gel.</summary>
    public Duration? GelTime { get; init; }

    /// <summary>Time to full rise.</summary>
    public Duration? FullRiseTime { get; init; }

    /// <summary>The longest shot.</summary>
    public Duration? LongestShot { get; init; }

    /// <summary>Greatest rise of one pour.</summary>
    public Length? MaxRisePerPour { get; init; }

    /// <summary>Least wait between pours in one compartment.</summary>
    public Duration? WaitBetweenPours { get; init; }

    /// <summary>Greatest mass of one pour.</summary>
    public Mass? MaxPourMass { get; init; }

    /// <summary>Greatest least-inside-width of a section that one pour may fill.</summary>
    public Length? MaxSectionWidth { get; init; }

    /// <summary>The supplier's written answer for a section or mass that the sheet does not cover is on file.</summary>
    public bool? SupplierAgreesToSection { get; init; }

    /// <summary>The pressure that the rising foam reaches when it is held.</summary>
    public Pressure? FoamPressure { get; init; }

    /// <summary>Peak over mean growth of volume while the foam rises; 2 to 3 where no rise curve is known.</summary>
    public double? PeakRiseFactor { get; init; }

    /// <summary>Aged thermal conductivity, each value with the thickness at which it was tested.</summary>
    public ImmutableArray<AgedConductivity> AgedConductivities { get; init; } = [];

    /// <summary>Permeance to vapour.</summary>
    public VapourPermeance? VapourPermeance { get; init; }

    /// <summary>The thickness at which that permeance was tested.</summary>
    public Length? VapourPermeanceThickness { get; init; }

    /// <summary>The time after the pour before overflow may be cut.</summary>
    public Duration? SetTime { get; init; }

    /// <summary>Flame spread index and smoke.</summary>
    public SurfaceBurning? SurfaceBurning { get; init; }

    /// <summary>Fire tests and approvals of the foam.</summary>
    public ImmutableArray<FireTest> FireTests { get; init; } = [];

    /// <summary>The foam is covered within this time.</summary>
    public Duration? CoverWithin { get; init; }

    /// <summary>The sheet's ventilation during spraying, in air changes.</summary>
    public Frequency? Ventilation { get; init; }

    /// <summary>The sheet's time before other trades come back, after the last spraying.</summary>
    public Duration? TradesReentry { get; init; }

    /// <summary>The sheet's time before occupants come back, after the last spraying.</summary>
    public Duration? OccupantsReentry { get; init; }

    /// <summary>The lots that will be used.</summary>
    public ImmutableArray<Lot> Lots { get; init; } = [];

    /// <summary>The blowing agent's global warming potential.</summary>
    public double? GlobalWarmingPotential { get; init; }

    /// <summary>The safety data sheets of both components are on site.</summary>
    public bool? SafetyDataSheetsOnSite { get; init; }

    /// <summary>The mass of both components together that is on hand for this job; before the work starts, what is ordered counts.</summary>
    public Mass? MaterialOnHand { get; init; }

    /// <summary>Every limit that the data sheet gives stands in this plan; what is left out here the sheet does not say.</summary>
    public bool? SheetLimitsComplete { get; init; }

    /// <summary>Heat of reaction of the mix, per mass.</summary>
    public SpecificEnergy? HeatOfReaction { get; init; }

    /// <summary>Thermal conductivity of the fresh foam; not the aged one.</summary>
    public ThermalConductivity? FreshConductivity { get; init; }

    /// <summary>Specific heat of the cured foam.</summary>
    public SpecificEntropy? SpecificHeat { get; init; }
}

/// <summary>The kind of foam.</summary>
public enum FoamKind
{
    /// <summary>Open-cell spray, about half a pound.</summary>
    OpenCellSpray = 1,

    /// <summary>Closed-cell spray, about two pounds.</summary>
    ClosedCellSpray = 2,

    /// <summary>Closed-cell roofing spray, about three pounds.</summary>
    RoofingSpray = 3,

    /// <summary>Closed-cell pour.</summary>
    ClosedCellPour = 4,
}

/// <summary>A use that a data sheet lists.</summary>
public enum FoamUse
{
    /// <summary>Sprayed on open walls, ceilings and floors inside.</summary>
    OpenFaceInterior = 1,

    /// <summary>Sprayed on open faces outside.</summary>
    OpenFaceExterior = 2,

    /// <summary>Sprayed on roofs.</summary>
    Roof = 3,

    /// <summary>Sprayed below grade.</summary>
    BelowGrade = 4,

    /// <summary>Poured into closed cavities.</summary>
    ClosedCavity = 5,
}

/// <summary>An aged thermal conductivity with the thickness at which it was tested.</summary>
public sealed record AgedConductivity : PlanNode
{
    /// <summary>The value.</summary>
    public ThermalConductivity? Conductivity { get; init; }

    /// <summary>The thickness tested.</summary>
    public Length? TestedThickness { get; init; }
}

/// <summary>A substrate that the sheet accepts.</summary>
public sealed record AcceptedSubstrate : PlanNode
{
    /// <summary>The substrate.</summary>
    public Substrate Substrate { get; init; }

    /// <summary>It needs a primer.</summary>
    public bool? NeedsPrimer { get; init; }
}

/// <summary>What foam is applied to.</summary>
public enum Substrate
{
    /// <summary>Wood, plywood or oriented strand board.</summary>
    Wood = 1,

    /// <summary>Concrete.</summary>
    Concrete = 2,

    /// <summary>Block or brick.</summary>
    Masonry = 3,

    /// <summary>Bare or primed steel.</summary>
    Steel = 4,

    /// <summary>Galvanized steel.</summary>
    GalvanizedSteel = 5,

    /// <summary>Painted steel.</summary>
    PaintedSteel = 6,

    /// <summary>Gypsum board or sheathing.</summary>
    Gypsum = 7,

    /// <summary>Cured foam.</summary>
    Foam = 8,

    /// <summary>Bituminous or single-ply membrane.</summary>
    Membrane = 9,

    /// <summary>Aluminium.</summary>
    Aluminum = 10,

    /// <summary>Plastic.</summary>
    Plastic = 11,
}

/// <summary>Surface burning by a named test. Figures of different tests are not comparable.</summary>
public sealed record SurfaceBurning : PlanNode
{
    /// <summary>The test.</summary>
    public SurfaceBurningTest? Test { get; init; }

    /// <summary>Flame spread index, or flame-spread rating by CAN/ULC-S102.</summary>
    public double? FlameSpread { get; init; }

    /// <summary>Smoke-developed index.</summary>
    public double? SmokeDeveloped { get; init; }

    /// <summary>The thickness tested.</summary>
    public Length? TestedThickness { get; init; }
}

/// <summary>A test of surface burning.</summary>
public enum SurfaceBurningTest
{
    /// <summary>ASTM E84 or UL 723.</summary>
    AstmE84 = 1,

    /// <summary>CAN/ULC-S102.</summary>
    CanUlcS102 = 2,

    /// <summary>EN 13501-1.</summary>
    En135011 = 3,
}

/// <summary>A fire test or approval report of the foam.</summary>
public sealed record FireTest : PlanNode
{
    /// <summary>The test.</summary>
    public FireTestKind Kind { get; init; }

    /// <summary>The greatest thickness that the report covers.</summary>
    public Length? MaxThickness { get; init; }

    /// <summary>Its end use is this work's end use.</summary>
    public bool? EndUseMatches { get; init; }

    /// <summary>Its substrate is this work's substrate.</summary>
    public bool? SubstrateMatches { get; init; }

    /// <summary>The density tested.</summary>
    public Density? Density { get; init; }

    /// <summary>The report's conditions of use are met: entry, storage, air, combustion air.</summary>
    public bool? ConditionsMet { get; init; }

    /// <summary>The report's number.</summary>
    public string? Report { get; init; }
}

/// <summary>A fire test or approval.</summary>
public enum FireTestKind
{
    /// <summary>NFPA 286 room corner test.</summary>
    Nfpa286 = 1,

    /// <summary>FM 4880.</summary>
    Fm4880 = 2,

    /// <summary>UL 1040.</summary>
    Ul1040 = 3,

    /// <summary>UL 1715.</summary>
    Ul1715 = 4,

    /// <summary>AC377 appendix X, for attics and crawl spaces.</summary>
    Ac377AppendixX = 5,

    /// <summary>An approval by the authority having jurisdiction.</summary>
    AuthorityApproval = 6,
}

/// <summary>A lot of either component.</summary>
public sealed record Lot : PlanNode
{
    /// <summary>The lot's number.</summary>
    public string? Id { get; init; }

    /// <summary>The day on which it expires, ISO 8601.</summary>
    public DateOnly? Expires { get; init; }

    /// <summary>The day on which it was made, ISO 8601.</summary>
    public DateOnly? Made { get; init; }

    /// <summary>The day on which it was bought, ISO 8601.</summary>
    public DateOnly? Bought { get; init; }

    /// <summary>The temperature at which its drum is stored.</summary>
    public Temperature? StorageTemperature { get; init; }

    /// <summary>The temperature of its liquid, measured in the drum.</summary>
    public Temperature? LiquidTemperature { get; init; }
}
