using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>One piece of foam work.</summary>
public sealed record WorkItem : PlanNode
{
    /// <summary>A short name, unique in the plan.</summary>
    public string Id { get; init; } = "";

    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>The area in which it is done.</summary>
    public string Area { get; init; } = "";

    /// <summary>The product.</summary>
    public string Product { get; init; } = "";

    /// <summary>What the foam is applied to.</summary>
    public Substrate? Substrate { get; init; }

    /// <summary>A primer is planned.</summary>
    public bool? Primed { get; init; }

    /// <summary>The hottest surface that the foam will touch in service.</summary>
    public Temperature? HottestSurfaceInService { get; init; }

    /// <summary>Below grade.</summary>
    public bool? BelowGrade { get; init; }

    /// <summary>For concrete: its age on the work date.</summary>
    public Duration? ConcreteAge { get; init; }

    /// <summary>For concrete: dry to the touch or by the sheet's test.</summary>
    public bool? ConcreteDry { get; init; }

    /// <summary>Foam sprayed on an open face in passes.</summary>
    public SprayApplication? Spray { get; init; }

    /// <summary>Foam poured into closed cavities.</summary>
    public CavityFill? CavityFill { get; init; }

    /// <summary>What the foam needs around it against fire.</summary>
    public FireSituation? Fire { get; init; }

    /// <summary>Watching for heat after the last pass, pour or test bun.</summary>
    public HeatWatch? HeatWatch { get; init; }

    /// <summary>Trimmings and test buns are cut up, spread outside and cooled before the bin.</summary>
    public bool? WasteCoolsOutside { get; init; }

    /// <summary>Density of the foam planned or sampled, where it differs from the product's.</summary>
    public Density? Density { get; init; }

    /// <summary>The part of the building's envelope that the foam belongs to.</summary>
    public Envelope? Envelope { get; init; }

    /// <summary>Who looks for shrinkage and gaps at steel after the foam has cooled.</summary>
    public string? ShrinkageCheckedBy { get; init; }

    /// <summary>The foam hides wiring or framing.</summary>
    public bool? HidesWiringOrFraming { get; init; }

    /// <summary>What it hides is inspected before the foam.</summary>
    public bool? InspectedBeforeCover { get; init; }
}

/// <summary>Foam sprayed on an open face in passes.</summary>
public sealed record SprayApplication : PlanNode
{
    /// <summary>The area covered.</summary>
    public Area? Area { get; init; }

    /// <summary>The thickness that is specified.</summary>
    public Length? Thickness { get; init; }

    /// <summary>The passes, in order; empty: only the total is known.</summary>
    public ImmutableArray<Pass> Passes { get; init; } = [];

    /// <summary>The written method says: no respray of an area until rise has stopped and the wait has run; rising foam is never thickened.</summary>
    public bool? NeverOntoRisingFoam { get; init; }

    /// <summary>The thickness planned for the fullest day, where the passes do not say which day each is on.</summary>
    public Length? ThicknessPerDay { get; init; }

    /// <summary>Heat-sensitive pipes and cables in the foam. Present and empty: none.</summary>
    public BuriedPipeList? BuriedPipes { get; init; }

    /// <summary>Close-out: depths measured with a probe.</summary>
    public ThicknessSurvey? Survey { get; init; }

    /// <summary>Close-out: a pass that was too thick was cored and watched.</summary>
    public bool? ThickPassCored { get; init; }

    /// <summary>Pre-start: how many passes are on the face when this is judged; 0 before the first.</summary>
    public int? PassesDone { get; init; }

    /// <summary>Pre-start: when the last pass on the face ended.</summary>
    public DateTimeOffset? LastPassEndedAt { get; init; }

    /// <summary>How long one pass over the whole face takes, with moves of scaffold and hose.</summary>
    public Duration? TimePerPass { get; init; }

    /// <summary>Close-out: the state in which the foam is left.</summary>
    public FoamCondition? Condition { get; init; }

    /// <summary>The face before the foam.</summary>
    public SurfaceCondition? Surface { get; init; }

    /// <summary>Close-out: samples of density, and tests of adhesion.</summary>
    public FoamSamples? Samples { get; init; }
}

/// <summary>The face before the foam.</summary>
public sealed record SurfaceCondition : PlanNode
{
    /// <summary>No oil, grease or wax.</summary>
    public bool? FreeOfOil { get; init; }

    /// <summary>No dust or dirt.</summary>
    public bool? FreeOfDust { get; init; }

    /// <summary>No rust scale.</summary>
    public bool? FreeOfRustScale { get; init; }

    /// <summary>No loose paint or other loose layer.</summary>
    public bool? FreeOfLoosePaint { get; init; }
}

/// <summary>Samples of density, and tests of adhesion.</summary>
public sealed record FoamSamples : PlanNode
{
    /// <summary>Densities in place of samples that were cut and weighed, with the skins.</summary>
    public DensitySampleList? Densities { get; init; }

    /// <summary>How far a sample's density may lie from the data sheet's, either way, as the specification says.</summary>
    public Ratio? DensityTolerance { get; init; }

    /// <summary>How many tests of adhesion were made.</summary>
    public int? AdhesionTests { get; init; }

    /// <summary>How many of them let go of the surface, or between two passes, before the foam tore.</summary>
    public int? AdhesionFailures { get; init; }
}

/// <summary>A list of densities: absent is "not given", present and empty is "none".</summary>
public sealed record DensitySampleList : PlanNode
{
    /// <summary>The densities.</summary>
    public ImmutableArray<Density> Samples { get; init; } = [];
}

/// <summary>One pass.</summary>
public sealed record Pass : PlanNode
{
    /// <summary>Its thickness as planned.</summary>
    public Length? Thickness { get; init; }

    /// <summary>The wait after the pass before it; nothing for the first.</summary>
    public Duration? WaitBefore { get; init; }

    /// <summary>The day on which it is sprayed, counted from 1.</summary>
    public int? Day { get; init; }

    /// <summary>Close-out: its thickness as built.</summary>
    public Length? BuiltThickness { get; init; }

    /// <summary>Close-out: the wait that was kept.</summary>
    public Duration? BuiltWait { get; init; }
}

/// <summary>A list of buried pipes: absent is "not given", present and empty is "none".</summary>
public sealed record BuriedPipeList : PlanNode
{
    /// <summary>The pipes and cables.</summary>
    public ImmutableArray<BuriedPipe> Pipes { get; init; } = [];
}

/// <summary>A pipe or cable that the foam buries.</summary>
public sealed record BuriedPipe : PlanNode
{
    /// <summary>Its material.</summary>
    public PipeMaterial? Material { get; init; }

    /// <summary>The thickest pass over it; the thickest pass of the work where it is left out.</summary>
    public Length? ThickestPassOverIt { get; init; }

    /// <summary>Its maker's greatest thickness of foam a pass.</summary>
    public Length? MakerLimit { get; init; }
}

/// <summary>The material of a buried pipe.</summary>
public enum PipeMaterial
{
    /// <summary>Chlorinated polyvinyl chloride.</summary>
    Cpvc = 1,

    /// <summary>Another plastic.</summary>
    OtherPlastic = 2,

    /// <summary>Copper or steel: not sensitive.</summary>
    Metal = 3,
}

/// <summary>Depths measured with a probe.</summary>
public sealed record ThicknessSurvey : PlanNode
{
    /// <summary>The depths.</summary>
    public ImmutableArray<Length> Depths { get; init; } = [];

    /// <summary>The tolerance below the specified thickness.</summary>
    public Length? Tolerance { get; init; }
}

/// <summary>The state in which sprayed foam is left.</summary>
public sealed record FoamCondition : PlanNode
{
    /// <summary>No scorch: no brown or burnt place on it or in a core.</summary>
    public bool? FreeOfScorch { get; init; }

    /// <summary>No split and no crack.</summary>
    public bool? FreeOfSplits { get; init; }

    /// <summary>No blister.</summary>
    public bool? FreeOfBlisters { get; init; }

    /// <summary>No soft and no sticky patch.</summary>
    public bool? FreeOfSoftOrStickyPatches { get; init; }

    /// <summary>No gap from shrinkage at studs, steel or edges.</summary>
    public bool? FreeOfShrinkageGaps { get; init; }

    /// <summary>No odour that stays.</summary>
    public bool? FreeOfLastingOdour { get; init; }

    /// <summary>No off-ratio foam is left; what there was is cut out.</summary>
    public bool? FreeOfOffRatioFoam { get; init; }
}

/// <summary>Foam poured into closed cavities.</summary>
public sealed record CavityFill : PlanNode
{
    /// <summary>How many like cavities.</summary>
    public int? Count { get; init; }

    /// <summary>What the cavity is.</summary>
    public CavityKind? Cavity { get; init; }

    /// <summary>The section of a hollow member, such as HSS6X6X3/8 or 100x100x5.</summary>
    public string? Section { get; init; }

    /// <summary>The section's standard.</summary>
    public SectionStandard? Standard { get; init; }

    /// <summary>The void's area in plan where no section is named.</summary>
    public Area? VoidArea { get; init; }

    /// <summary>The least inside width where no section is named.</summary>
    public Length? InsideWidth { get; init; }

    /// <summary>The height to fill.</summary>
    public Length? Height { get; init; }

    /// <summary>Compartments along the height; one where the member is open inside from end to end.</summary>
    public ImmutableArray<Compartment> Compartments { get; init; } = [];

    /// <summary>Every cap, diaphragm, stiffener, splice, through-bolt and old fill is known, by drawing or bore-scope.</summary>
    public bool? CompartmentsMapped { get; init; }

    /// <summary>Holes that take the nozzle, in each cavity. Present and empty: none.</summary>
    public HoleList? FillHoles { get; init; }

    /// <summary>Holes and open joints that let air out, besides the fill holes, in each cavity. Present and empty: none.</summary>
    public HoleList? VentHoles { get; init; }

    /// <summary>The shots of each cavity, in order.</summary>
    public ImmutableArray<Shot> Shots { get; init; } = [];

    /// <summary>The wait before the nozzle comes back to the same compartment, where the shots do not say.</summary>
    public Duration? WaitBetweenPours { get; init; }

    /// <summary>Test shots made on like cavities.</summary>
    public TestShots? TestShots { get; init; }

    /// <summary>The pressure that the weakest wall holds, by its sheet or the engineer.</summary>
    public Pressure? WallHolds { get; init; }

    /// <summary>The weakest wall.</summary>
    public WallKind? WeakestWall { get; init; }

    /// <summary>Weep holes that the designer needs. Present and empty: none.</summary>
    public WeepHoles? WeepHoles { get; init; }

    /// <summary>How fullness is proven, at close-out.</summary>
    public FullnessProof? Fullness { get; init; }

    /// <summary>The engineer of record's limits for field holes.</summary>
    public HoleLimits? HoleLimits { get; init; }

    /// <summary>This fill's holes are drilled before any foam is in the member.</summary>
    public bool? DrilledBeforeFoam { get; init; }

    /// <summary>A hole drilled after foam: cold, after cure, with a watch and an extinguisher.</summary>
    public bool? LaterHolesColdDrilledWithWatch { get; init; }

    /// <summary>The steel's temperature at the pour.</summary>
    public Temperature? SteelTemperature { get; init; }

    /// <summary>The member's corner radius outside, where no section is named.</summary>
    public Length? CornerRadius { get; init; }

    /// <summary>Holes drilled after the foam is in: proof, top-up, another trade.</summary>
    public bool? LaterHolesPlanned { get; init; }

    /// <summary>How many compartments get a shot before the nozzle comes back to the first; 1: each is finished before the next is begun.</summary>
    public int? CompartmentsInTurn { get; init; }

    /// <summary>The time to walk from one hole to the next, hose and all.</summary>
    public Duration? WalkBetweenHoles { get; init; }

    /// <summary>Where foam or liquid could come out besides the holes.</summary>
    public LeakPaths? LeakPaths { get; init; }

    /// <summary>What is inside before the foam.</summary>
    public CavityState? Inside { get; init; }

    /// <summary>The designer's decision how far the cavity is filled.</summary>
    public ExtentDecision? ExtentDecision { get; init; }

    /// <summary>How overflow is cut off.</summary>
    public Trimming? Trimming { get; init; }

    /// <summary>Where people stand while foam rises.</summary>
    public LineOfFire? LineOfFire { get; init; }

    /// <summary>How holes are drilled.</summary>
    public Drilling? Drilling { get; init; }

    /// <summary>Holes are plugged and coated afterwards as the designer says; before the work: it is planned so.</summary>
    public bool? HolesMadeGood { get; init; }

    /// <summary>Filled members are marked "foam inside, no hot work"; before the work: it is planned so.</summary>
    public bool? Marked { get; init; }
}

/// <summary>What a cavity is.</summary>
public enum CavityKind
{
    /// <summary>A hollow steel column or beam.</summary>
    SteelSection = 1,

    /// <summary>A door or window frame.</summary>
    Frame = 2,

    /// <summary>Cores of block.</summary>
    BlockCore = 3,

    /// <summary>A stud bay behind board.</summary>
    StudBay = 4,

    /// <summary>A gap behind panels.</summary>
    PanelGap = 5,
}

/// <summary>The standard of a hollow section.</summary>
public enum SectionStandard
{
    /// <summary>ASTM A500: the tabulated design wall is 0.93 of nominal.</summary>
    AstmA500 = 1,

    /// <summary>ASTM A1085: the design wall is the nominal wall.</summary>
    AstmA1085 = 2,

    /// <summary>EN 10210-2, hot finished.</summary>
    En102102 = 3,

    /// <summary>EN 10219-2, cold formed.</summary>
    En102192 = 4,
}

/// <summary>One compartment of a cavity.</summary>
public sealed record Compartment : PlanNode
{
    /// <summary>Its lower end above the foot of the cavity.</summary>
    public Length? From { get; init; }

    /// <summary>Its upper end above the foot of the cavity.</summary>
    public Length? To { get; init; }
}

/// <summary>A list of holes: absent is "not given", present and empty is "none".</summary>
public sealed record HoleList : PlanNode
{
    /// <summary>The holes.</summary>
    public ImmutableArray<Hole> Holes { get; init; } = [];
}

/// <summary>A hole or an open joint.</summary>
public sealed record Hole : PlanNode
{
    /// <summary>Its diameter.</summary>
    public Length? Diameter { get; init; }

    /// <summary>The height of its centre above the foot of the cavity.</summary>
    public Length? Height { get; init; }

    /// <summary>An open joint instead of a hole: its measured open area.</summary>
    public Area? OpenArea { get; init; }

    /// <summary>Distance of its edge from the nearest weld, end or connection.</summary>
    public Length? DistanceToWeld { get; init; }

    /// <summary>Distance of its centre from the nearest outside corner.</summary>
    public Length? DistanceToCorner { get; init; }
}

/// <summary>One shot into a compartment.</summary>
public sealed record Shot : PlanNode
{
    /// <summary>How long the trigger is held.</summary>
    public Duration? TriggerTime { get; init; }

    /// <summary>Which compartment it goes into, counted from 1 at the foot; 1 where there is only one.</summary>
    public int? Compartment { get; init; }

    /// <summary>The wait after the last shot into the same compartment.</summary>
    public Duration? WaitBefore { get; init; }
}

/// <summary>Test shots made on like cavities.</summary>
public sealed record TestShots : PlanNode
{
    /// <summary>The shots.</summary>
    public ImmutableArray<TestShot> Shots { get; init; } = [];

    /// <summary>The time to full rise seen in today's shots.</summary>
    public Duration? FullRiseSeen { get; init; }

    /// <summary>The fill was seen or measured.</summary>
    public bool? FillSeenOrMeasured { get; init; }

    /// <summary>The steel's temperature at the test shots; colder steel takes more foam.</summary>
    public Temperature? SteelTemperature { get; init; }

    /// <summary>The spread of the machine's output where somebody declares it: the standard deviation of a shot's mass.</summary>
    public Ratio? OutputSpread { get; init; }
}

/// <summary>One test shot.</summary>
public sealed record TestShot : PlanNode
{
    /// <summary>How long the trigger was held.</summary>
    public Duration? TriggerTime { get; init; }

    /// <summary>The height that the foam reached.</summary>
    public Length? FillHeight { get; init; }

    /// <summary>The mass that came out, weighed.</summary>
    public Mass? Mass { get; init; }

    /// <summary>Foam came out at the top: the height is only a lower bound.</summary>
    public bool? Overflowed { get; init; }
}

/// <summary>What a wall is.</summary>
public enum WallKind
{
    /// <summary>Structural steel.</summary>
    StructuralSteel = 1,

    /// <summary>Sheet metal or a panel's face.</summary>
    SheetMetal = 2,

    /// <summary>Gypsum board.</summary>
    GypsumBoard = 3,

    /// <summary>Wood board.</summary>
    WoodBoard = 4,

    /// <summary>Masonry.</summary>
    Masonry = 5,
}

/// <summary>A list of weep holes: absent is "not given", present and empty is "none".</summary>
public sealed record WeepHoles : PlanNode
{
    /// <summary>Their heights above the foot.</summary>
    public ImmutableArray<Hole> Holes { get; init; } = [];

    /// <summary>They stay open below the foam.</summary>
    public bool? StayOpen { get; init; }

    /// <summary>The designer agreed to close them.</summary>
    public bool? DesignerAgreedToClose { get; init; }
}

/// <summary>How fullness is proven.</summary>
public sealed record FullnessProof : PlanNode
{
    /// <summary>Foam is seen at the vent or the top.</summary>
    public bool? FoamSeenAtVent { get; init; }

    /// <summary>Sounded or scanned with a thermal camera: the share of the cavities.</summary>
    public Ratio? ShareSoundedOrScanned { get; init; }

    /// <summary>The share found full.</summary>
    public Ratio? ShareFull { get; init; }
}

/// <summary>Where foam or liquid could come out besides the holes.</summary>
public sealed record LeakPaths : PlanNode
{
    /// <summary>Gaps in welds are sealed, or someone watches them. True where there are none.</summary>
    public bool? WeldGapsSealedOrWatched { get; init; }

    /// <summary>Seams left open for drainage are sealed, or someone watches them. True where there are none.</summary>
    public bool? SeamsSealedOrWatched { get; init; }

    /// <summary>The far face is sealed, or someone watches it.</summary>
    public bool? FarFaceSealedOrWatched { get; init; }
}

/// <summary>What is inside a cavity before the foam.</summary>
public sealed record CavityState : PlanNode
{
    /// <summary>No water.</summary>
    public bool? FreeOfWater { get; init; }

    /// <summary>No ice.</summary>
    public bool? FreeOfIce { get; init; }

    /// <summary>No wiring that foam would bury.</summary>
    public bool? FreeOfWiring { get; init; }

    /// <summary>No pipe that foam would bury.</summary>
    public bool? FreeOfPipe { get; init; }
}

/// <summary>The designer's decision how far a cavity is filled.</summary>
public sealed record ExtentDecision : PlanNode
{
    /// <summary>Full height or a part.</summary>
    public FillExtent? Extent { get; init; }

    /// <summary>The designer's decision is recorded.</summary>
    public bool? Recorded { get; init; }
}

/// <summary>How far a cavity is filled.</summary>
public enum FillExtent
{
    /// <summary>Its full height.</summary>
    FullHeight = 1,

    /// <summary>A part of its height.</summary>
    Part = 2,
}

/// <summary>How overflow is cut off.</summary>
public sealed record Trimming : PlanNode
{
    /// <summary>Only overflow outside the hole is cut; nothing is dug out of it.</summary>
    public bool? OnlyOutsideHole { get; init; }

    /// <summary>How long after the pour it is cut first.</summary>
    public Duration? StartsAfter { get; init; }

    /// <summary>A mass thicker than one pass is cut or dug open.</summary>
    public bool? CutsThickMass { get; init; }

    /// <summary>What a probe in the middle of such a mass may read at most before it is cut; at close-out, what it read.</summary>
    public Temperature? ThickMassBelow { get; init; }

    /// <summary>An extinguisher stands where it is cut.</summary>
    public bool? ExtinguisherThere { get; init; }

    /// <summary>Whoever cuts within the first hour wears a respirator.</summary>
    public bool? RespiratorFirstHour { get; init; }
}

/// <summary>Where people stand while foam rises.</summary>
public sealed record LineOfFire : PlanNode
{
    /// <summary>Nobody is in line with a hole, a vent, a seam or a thin panel, or below one.</summary>
    public bool? PeopleClear { get; init; }

    /// <summary>The nozzle is held from the side.</summary>
    public bool? NozzleFromSide { get; init; }

    /// <summary>Whoever holds it wears a face shield.</summary>
    public bool? FaceShield { get; init; }
}

/// <summary>How holes are drilled into steel.</summary>
public sealed record Drilling : PlanNode
{
    /// <summary>A small pilot hole comes first, and is let drain.</summary>
    public bool? PilotHoleFirst { get; init; }

    /// <summary>Whoever drills stands aside, and nobody is below.</summary>
    public bool? StandsAside { get; init; }

    /// <summary>No gloves near a turning cutter.</summary>
    public bool? NoGlovesAtCutter { get; init; }

    /// <summary>The drill hangs on a chain or strap.</summary>
    public bool? DrillOnChain { get; init; }

    /// <summary>No hole is drilled above the face.</summary>
    public bool? NeverAboveFace { get; init; }
}

/// <summary>The engineer of record's limits for field holes.</summary>
public sealed record HoleLimits : PlanNode
{
    /// <summary>The greatest share of the flat width.</summary>
    public Ratio? MaxShareOfFlatWidth { get; init; }

    /// <summary>The least distance of a hole's edge from welds, ends and connections.</summary>
    public Length? KeepOutFromWelds { get; init; }

    /// <summary>The engineer of record agreed each hole, size and place.</summary>
    public bool? EngineerAgreed { get; init; }
}

/// <summary>Watching for heat after the last pass, pour or test bun.</summary>
public sealed record HeatWatch : PlanNode
{
    /// <summary>Who stays.</summary>
    public string? Person { get; init; }

    /// <summary>How long they stay.</summary>
    public Duration? StaysFor { get; init; }

    /// <summary>They scan foam and waste.</summary>
    public bool? ScansFoamAndWaste { get; init; }

    /// <summary>They leave only on falling readings.</summary>
    public bool? LeavesOnFallingReadings { get; init; }
}

/// <summary>What the foam needs around it against fire.</summary>
public sealed record FireSituation : PlanNode
{
    /// <summary>Where the foam is, as the building code sees it.</summary>
    public FoamLocation? Location { get; init; }

    /// <summary>The foam is part of an exterior wall.</summary>
    public bool? InExteriorWall { get; init; }

    /// <summary>People enter the space only for service of utilities, repairs or maintenance.</summary>
    public bool? EnteredOnlyForService { get; init; }

    /// <summary>Things are stored in the space.</summary>
    public bool? UsedForStorage { get; init; }

    /// <summary>The access opening that the code asks for is there.</summary>
    public bool? AccessProvided { get; init; }

    /// <summary>The space is a plenum: air handling draws or blows through it.</summary>
    public bool? Plenum { get; init; }

    /// <summary>What will stand between the foam and the room.</summary>
    public Covering? Covering { get; init; }

    /// <summary>Something between foam and interior that is there already, such as a wall behind a thermal barrier.</summary>
    public bool? BehindThermalBarrier { get; init; }

    /// <summary>The code approval used, by its place in the product's fire tests, counted from 1.</summary>
    public int? ReliesOnFireTest { get; init; }

    /// <summary>For an exterior wall of type I to IV.</summary>
    public WallAssembly? WallAssembly { get; init; }

    /// <summary>For foam above a roof deck.</summary>
    public RoofAssembly? RoofAssembly { get; init; }

    /// <summary>Luminaires near the foam. Present and empty: none.</summary>
    public LuminaireList? Luminaires { get; init; }

    /// <summary>Flues and chimneys near the foam. Present and empty: none.</summary>
    public FlueList? Flues { get; init; }

    /// <summary>The greatest number of non-metallic sheathed cables in one foamed opening.</summary>
    public int? CablesInOneOpening { get; init; }

    /// <summary>The ampacity of bundled cables was adjusted.</summary>
    public bool? AmpacityAdjusted { get; init; }

    /// <summary>Fireproofing of steel that the work cuts.</summary>
    public SteelProtection? SteelProtection { get; init; }

    /// <summary>How long foam stays bare before it is covered.</summary>
    public Duration? BareFor { get; init; }

    /// <summary>The permit's, specification's or sheet's limit for bare foam.</summary>
    public Duration? CoverWithin { get; init; }

    /// <summary>Masonry or concrete on one face of the foam.</summary>
    public Length? MasonryInside { get; init; }

    /// <summary>Masonry or concrete on the other face.</summary>
    public Length? MasonryOutside { get; init; }

    /// <summary>Foam covers the plenum's index by the named test: flame spread.</summary>
    public double? PlenumFlameSpread { get; init; }

    /// <summary>The same: smoke developed.</summary>
    public double? PlenumSmokeDeveloped { get; init; }

    /// <summary>Foam inside a closed steel section: a barrier or approval is recorded.</summary>
    public bool? BarrierOrApprovalRecorded { get; init; }

    /// <summary>The member is fire-rated or its fireproofing is part of a rating.</summary>
    public bool? RatedMember { get; init; }

    /// <summary>The designer of the rating agreed to the fill.</summary>
    public bool? RatingDesignerAgreed { get; init; }

    /// <summary>Cooler or freezer wall: temperatures of flash and self-ignition meet the code.</summary>
    public bool? IgnitionTemperaturesMeetCode { get; init; }

    /// <summary>Metal cover of a cooler wall or one-storey wall.</summary>
    public MetalCover? MetalCover { get; init; }

    /// <summary>Wood structural panel on a floor's walking surface.</summary>
    public Length? FloorPanel { get; init; }

    /// <summary>The underside of that floor is open to a room.</summary>
    public bool? UndersideOpenToRoom { get; init; }

    /// <summary>Close-out: clearances to luminaires and flues were checked as built.</summary>
    public bool? ClearancesCheckedAsBuilt { get; init; }

    /// <summary>The foam is counted as fireblocking.</summary>
    public bool? CountedAsFireblock { get; init; }

    /// <summary>It was tested as fireblocking, in the form and place in which it is used here.</summary>
    public bool? TestedAsFireblock { get; init; }
}

/// <summary>Where the foam is, as the building code sees it.</summary>
public enum FoamLocation
{
    /// <summary>The occupied side of a wall, ceiling or floor.</summary>
    Room = 1,

    /// <summary>A basement, garage or mechanical room.</summary>
    BasementOrGarage = 2,

    /// <summary>An attic.</summary>
    Attic = 3,

    /// <summary>A crawl space.</summary>
    CrawlSpace = 4,

    /// <summary>Rim joist, sill plate or header.</summary>
    RimOrSill = 5,

    /// <summary>Within a masonry or concrete wall, floor or roof.</summary>
    Masonry = 6,

    /// <summary>Under a floor's walking surface.</summary>
    Floor = 7,

    /// <summary>Above a roof deck.</summary>
    AboveRoofDeck = 8,

    /// <summary>A cooler's or freezer's wall.</summary>
    CoolerWall = 9,

    /// <summary>A one-storey exterior wall under metal.</summary>
    OneStoreyMetalWall = 10,

    /// <summary>Inside a closed steel section.</summary>
    SteelSection = 11,

    /// <summary>A concealed cavity.</summary>
    Concealed = 12,

    /// <summary>Outside the building's shell.</summary>
    Outside = 13,
}

/// <summary>What will stand between the foam and the room.</summary>
public sealed record Covering : PlanNode
{
    /// <summary>Its material.</summary>
    public CoveringMaterial? Material { get; init; }

    /// <summary>Its thickness.</summary>
    public Length? Thickness { get; init; }

    /// <summary>A tested product: it is listed to NFPA 275 at the film thickness planned.</summary>
    public bool? ListedNfpa275 { get; init; }

    /// <summary>Fastened to the structure, not to the foam.</summary>
    public bool? FastenedToStructure { get; init; }
}

/// <summary>The material of a covering.</summary>
public enum CoveringMaterial
{
    /// <summary>No covering.</summary>
    None = 1,

    /// <summary>Gypsum board.</summary>
    GypsumBoard = 2,

    /// <summary>Wood structural panel.</summary>
    WoodStructuralPanel = 3,

    /// <summary>Heavy timber.</summary>
    HeavyTimber = 4,

    /// <summary>Mineral fibre insulation.</summary>
    MineralFiber = 5,

    /// <summary>Particleboard.</summary>
    Particleboard = 6,

    /// <summary>Hardboard.</summary>
    Hardboard = 7,

    /// <summary>Corrosion-resistant steel.</summary>
    SteelSheet = 8,

    /// <summary>Spray-applied cellulose.</summary>
    Cellulose = 9,

    /// <summary>Fibre cement.</summary>
    FiberCement = 10,

    /// <summary>A tested coating.</summary>
    Coating = 11,

    /// <summary>Masonry or concrete.</summary>
    Masonry = 12,

    /// <summary>Glass-fibre batts.</summary>
    GlassFiberBatt = 13,
}

/// <summary>An exterior wall of type I to IV.</summary>
public sealed record WallAssembly : PlanNode
{
    /// <summary>The wall matches an assembly that passed NFPA 285.</summary>
    public bool? MatchesTestedAssembly { get; init; }

    /// <summary>Potential heat of the foam by NFPA 259.</summary>
    public Irradiation? HeatContent { get; init; }

    /// <summary>Potential heat of the foam in the assembly that passed.</summary>
    public Irradiation? TestedHeatContent { get; init; }

    /// <summary>No sustained flaming by NFPA 268, or behind a cladding that the code exempts.</summary>
    public bool? IgnitionShownOrExempt { get; init; }

    /// <summary>The foam carries an approved agency's label.</summary>
    public bool? Labelled { get; init; }

    /// <summary>The wall is fire-rated.</summary>
    public bool? Rated { get; init; }

    /// <summary>Data show that the rating is kept with the foam.</summary>
    public bool? RatingKept { get; init; }
}

/// <summary>Foam above a roof deck.</summary>
public sealed record RoofAssembly : PlanNode
{
    /// <summary>The covering assembly is classed A, B or C by ASTM E108 or UL 790.</summary>
    public bool? Classed { get; init; }

    /// <summary>Wood structural panel between foam and interior, edges supported.</summary>
    public Length? WoodPanel { get; init; }

    /// <summary>The assembly passed NFPA 276 or UL 1256.</summary>
    public bool? PassedNfpa276OrUl1256 { get; init; }

    /// <summary>The base coat is on the same day.</summary>
    public bool? BaseCoatSameDay { get; init; }
}

/// <summary>A metal cover.</summary>
public sealed record MetalCover : PlanNode
{
    /// <summary>Its metal.</summary>
    public CoverMetal? Metal { get; init; }

    /// <summary>Its thickness, for steel of the base metal.</summary>
    public Length? Thickness { get; init; }
}

/// <summary>The metal of a cover.</summary>
public enum CoverMetal
{
    /// <summary>Aluminium.</summary>
    Aluminum = 1,

    /// <summary>Corrosion-resistant steel.</summary>
    Steel = 2,
}

/// <summary>A list of luminaires: absent is "not given", present and empty is "none".</summary>
public sealed record LuminaireList : PlanNode
{
    /// <summary>The luminaires.</summary>
    public ImmutableArray<Luminaire> Luminaires { get; init; } = [];
}

/// <summary>A recessed luminaire.</summary>
public sealed record Luminaire : PlanNode
{
    /// <summary>Type IC: may touch insulation.</summary>
    public bool? TypeIc { get; init; }

    /// <summary>Its instructions or listing allow foam against it.</summary>
    public bool? ListedForFoam { get; init; }

    /// <summary>Clearance of the foam.</summary>
    public Length? Clearance { get; init; }
}

/// <summary>A list of flues: absent is "not given", present and empty is "none".</summary>
public sealed record FlueList : PlanNode
{
    /// <summary>The flues.</summary>
    public ImmutableArray<Flue> Flues { get; init; } = [];
}

/// <summary>A flue or chimney.</summary>
public sealed record Flue : PlanNode
{
    /// <summary>Its kind.</summary>
    public FlueKind? Kind { get; init; }

    /// <summary>Clearance of the foam.</summary>
    public Length? Clearance { get; init; }

    /// <summary>The clearance of its listing.</summary>
    public Length? ListedClearance { get; init; }
}

/// <summary>The kind of a flue.</summary>
public enum FlueKind
{
    /// <summary>Masonry chimney, inside or in an exterior wall.</summary>
    MasonryChimney = 1,

    /// <summary>Masonry chimney, entirely outside.</summary>
    MasonryChimneyOutside = 2,

    /// <summary>Type B gas vent.</summary>
    TypeBVent = 3,

    /// <summary>Single-wall connector.</summary>
    SingleWall = 4,

    /// <summary>Plastic vent of a sealed-combustion appliance.</summary>
    SealedPlastic = 5,

    /// <summary>Anything else: only its listing says.</summary>
    Other = 6,
}

/// <summary>Fireproofing of steel that the work cuts.</summary>
public sealed record SteelProtection : PlanNode
{
    /// <summary>Fireproofing is cut.</summary>
    public bool? Cut { get; init; }

    /// <summary>The repair is named by its listing.</summary>
    public bool? RepairNamed { get; init; }

    /// <summary>The repair is done.</summary>
    public bool? Repaired { get; init; }

    /// <summary>The repair is inspected.</summary>
    public bool? Inspected { get; init; }

    /// <summary>When it was inspected.</summary>
    public DateTimeOffset? InspectedAt { get; init; }
}
