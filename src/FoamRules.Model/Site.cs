using UnitsNet;

namespace FoamRules.Model;

/// <summary>The building and the site as a whole.</summary>
public sealed record Site : PlanNode
{
    /// <summary>Height above sea level; thinner air makes lighter foam.</summary>
    public Length? Altitude { get; init; }

    /// <summary>The building code that governs, where the rule sets carry more than one.</summary>
    public BuildingCode? BuildingCode { get; init; }

    /// <summary>The code's edition, such as 2018.</summary>
    public int? CodeEdition { get; init; }

    /// <summary>The type of construction by the building code.</summary>
    public ConstructionType? ConstructionType { get; init; }

    /// <summary>The number of storeys above grade.</summary>
    public int? Storeys { get; init; }

    /// <summary>An automatic sprinkler system throughout the building.</summary>
    public bool? SprinkleredThroughout { get; init; }

    /// <summary>True for work in a building that stands already; false for new construction.</summary>
    public bool? ExistingBuilding { get; init; }

    /// <summary>What the building is used for.</summary>
    public BuildingUse? Use { get; init; }

    /// <summary>True while people who are not on the crew use the building during the work.</summary>
    public bool? Occupied { get; init; }

    /// <summary>What the owner of an occupied building agreed to.</summary>
    public OwnerAgreement? OwnerAgreement { get; init; }

    /// <summary>The survey for asbestos.</summary>
    public AsbestosSurvey? AsbestosSurvey { get; init; }

    /// <summary>What is known of lead in the paint of existing steel.</summary>
    public CoatingAssessment? CoatingAssessment { get; init; }

    /// <summary>Wiring, gas, water and other services in what is drilled or filled.</summary>
    public ServicesCheck? Services { get; init; }

    /// <summary>Other employers on the site.</summary>
    public TradesCoordination? OtherTrades { get; init; }

    /// <summary>The designer or the owner expects condensation, pools, food or hospital air: the intended indoor use is humid.</summary>
    public bool? HumidUse { get; init; }

    /// <summary>Whether the people who use the building were asked about asthma, pregnancy, children and pets. Never who has what.</summary>
    public VulnerablePeople? VulnerablePeople { get; init; }
}

/// <summary>Whether vulnerable people were asked about.</summary>
public enum VulnerablePeople
{
    /// <summary>Nobody has asked.</summary>
    NotAsked = 1,

    /// <summary>Asked, none.</summary>
    AskedNone = 2,

    /// <summary>Asked, arrangements made.</summary>
    AskedArranged = 3,
}

/// <summary>A building code.</summary>
public enum BuildingCode
{
    /// <summary>International Building Code.</summary>
    Ibc = 1,

    /// <summary>International Residential Code.</summary>
    Irc = 2,

    /// <summary>Another code: the fire requirements that rest on code tables answer "undetermined".</summary>
    Other = 3,
}

/// <summary>Type of construction by the International Building Code, chapter 6.</summary>
public enum ConstructionType
{
    /// <summary>Type I.</summary>
    I = 1,

    /// <summary>Type II.</summary>
    Ii = 2,

    /// <summary>Type III.</summary>
    Iii = 3,

    /// <summary>Type IV.</summary>
    Iv = 4,

    /// <summary>Type V.</summary>
    V = 5,
}

/// <summary>What a building is used for.</summary>
public enum BuildingUse
{
    /// <summary>Storage, not chilled.</summary>
    Warehouse = 1,

    /// <summary>Cold storage.</summary>
    ColdStore = 2,

    /// <summary>Factory or workshop.</summary>
    Factory = 3,

    /// <summary>Offices.</summary>
    Office = 4,

    /// <summary>Shops.</summary>
    Retail = 5,

    /// <summary>School or nursery.</summary>
    School = 6,

    /// <summary>Hospital or clinic.</summary>
    Hospital = 7,

    /// <summary>Care home.</summary>
    Care = 8,

    /// <summary>Food is made or handled in the open.</summary>
    FoodPlant = 9,

    /// <summary>People live there.</summary>
    Housing = 10,

    /// <summary>Anything else.</summary>
    Other = 11,
}

/// <summary>What the owner of an occupied building agreed to, in writing.</summary>
public sealed record OwnerAgreement : PlanNode
{
    /// <summary>The plan is signed by the owner.</summary>
    public bool? Signed { get; init; }

    /// <summary>It says who leaves and when.</summary>
    public bool? SaysWhoLeavesAndWhen { get; init; }

    /// <summary>It says which air handlers stop.</summary>
    public bool? SaysWhichAirHandlersStop { get; init; }

    /// <summary>It says what is sealed.</summary>
    public bool? SaysWhatIsSealed { get; init; }

    /// <summary>Food, medicine and open product are taken out.</summary>
    public bool? OpenProductOut { get; init; }

    /// <summary>The infection-control or food-safety officer agreed, where there is one.</summary>
    public bool? SectorOfficerAgreed { get; init; }

    /// <summary>It names whom to call about odour.</summary>
    public bool? NamesOdourContact { get; init; }
}

/// <summary>The survey for asbestos.</summary>
public sealed record AsbestosSurvey : PlanNode
{
    /// <summary>A survey was made before the work.</summary>
    public bool? Made { get; init; }

    /// <summary>It covers what will be drilled, cut, cleaned or covered.</summary>
    public bool? CoversThisWork { get; init; }

    /// <summary>It found asbestos in what it covers.</summary>
    public bool? FoundAsbestos { get; init; }

    /// <summary>What was found is abated, or the work leaves it untouched.</summary>
    public bool? AbatedOrUntouched { get; init; }
}

/// <summary>What is known of lead in the paint of existing steel.</summary>
public sealed record CoatingAssessment : PlanNode
{
    /// <summary>How the paint was judged.</summary>
    public LeadAssessment? Assessment { get; init; }

    /// <summary>Controls to match are planned: no dry grinding or scraping, vacuum, washing, blood tests.</summary>
    public bool? ControlsPlanned { get; init; }
}

/// <summary>How paint was judged for lead.</summary>
public enum LeadAssessment
{
    /// <summary>Tested, no lead.</summary>
    TestedFree = 1,

    /// <summary>Tested, lead found.</summary>
    TestedLeaded = 2,

    /// <summary>Not tested, treated as leaded.</summary>
    AssumedLeaded = 3,

    /// <summary>Neither tested nor assumed leaded.</summary>
    None = 4,
}

/// <summary>Wiring, gas, water and other services in what is drilled or filled.</summary>
public sealed record ServicesCheck : PlanNode
{
    /// <summary>Both sides and the inside were scanned or opened.</summary>
    public bool? ScannedOrOpened { get; init; }

    /// <summary>Something was found.</summary>
    public bool? Found { get; init; }

    /// <summary>What was found is isolated, and proved dead.</summary>
    public bool? IsolatedAndProvedDead { get; init; }
}

/// <summary>Other employers on the site.</summary>
public sealed record TradesCoordination : PlanNode
{
    /// <summary>Other trades are on the site while foam is worked.</summary>
    public bool? Present { get; init; }

    /// <summary>They have the safety data sheets.</summary>
    public bool? HaveSafetyDataSheets { get; init; }

    /// <summary>They know the exclusion zone.</summary>
    public bool? KnowExclusionZone { get; init; }

    /// <summary>They know that no hot work is done near foam.</summary>
    public bool? KnowNoHotWork { get; init; }

    /// <summary>They know the clock time of re-entry.</summary>
    public bool? KnowReentryTime { get; init; }

    /// <summary>Their work lies outside the zone and the time.</summary>
    public bool? WorkOutsideZoneAndTime { get; init; }
}
