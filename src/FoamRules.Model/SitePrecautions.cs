using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>Water on the faces that foam will meet.</summary>
public sealed record FaceWater : PlanNode
{
    /// <summary>No rain, dew, frost or standing water is on them.</summary>
    public bool? DryNow { get; init; }

    /// <summary>None is due before the foam has skinned.</summary>
    public bool? DryUntilSkinned { get; init; }
}

/// <summary>What keeps spray where it belongs. Where there is nothing of the kind in reach, the answer is yes.</summary>
public sealed record OversprayControl : PlanNode
{
    /// <summary>What must stay clean is masked.</summary>
    public bool? Masked { get; init; }

    /// <summary>Screens or closed walls hold the spray back.</summary>
    public bool? Screened { get; init; }

    /// <summary>Vehicles and goods in reach are moved away.</summary>
    public bool? VehiclesMoved { get; init; }

    /// <summary>Neighbours in reach are told.</summary>
    public bool? NeighboursTold { get; init; }
}

/// <summary>How dust of concrete, block and brick is kept down.</summary>
public sealed record SilicaControl : PlanNode
{
    /// <summary>Concrete, block or brick is drilled, cut or ground.</summary>
    public bool? CutsMasonry { get; init; }

    /// <summary>The tool has a shroud and a vacuum with the flow and the filter that its maker asks.</summary>
    public bool? ShroudAndVacuum { get; init; }

    /// <summary>Holes are cleaned with a HEPA vacuum.</summary>
    public bool? HepaForHoles { get; init; }

    /// <summary>Nobody blows dust out or sweeps it dry.</summary>
    public bool? NoBlowingOrDrySweeping { get; init; }
}

/// <summary>How cold work is warmed.</summary>
public sealed record Heating : PlanNode
{
    /// <summary>What warms it; where there are several, the worst.</summary>
    public HeatSource? Source { get; init; }

    /// <summary>From the nearest heater to the nearest tarpaulin, sheeting or other cover that burns.</summary>
    public Length? DistanceToCovers { get; init; }

    /// <summary>The surface stays in the data sheet's range until the foam has cured.</summary>
    public bool? SurfaceInRangeThroughCure { get; init; }
}

/// <summary>What warms the work.</summary>
public enum HeatSource
{
    /// <summary>Nothing is warmed.</summary>
    None = 1,

    /// <summary>Electric.</summary>
    Electric = 2,

    /// <summary>Indirect-fired outdoors, its warm air led in by a duct.</summary>
    DuctedIndirectFired = 3,

    /// <summary>Fired without a flue to the outdoors.</summary>
    Unvented = 4,

    /// <summary>An open flame.</summary>
    OpenFlame = 5,
}

/// <summary>The building's own heating, cooling and ventilation.</summary>
public sealed record BuildingAir : PlanNode
{
    /// <summary>A system of the building draws from this area or blows into it.</summary>
    public bool? Present { get; init; }

    /// <summary>It is off while foam is worked.</summary>
    public bool? Off { get; init; }

    /// <summary>Its openings are sealed.</summary>
    public bool? OpeningsSealed { get; init; }

    /// <summary>How long the covers stay on after the last spraying.</summary>
    public Duration? CoversStayFor { get; init; }
}

/// <summary>How the crew leaves the work without taking foam along.</summary>
public sealed record CleanLeaving : PlanNode
{
    /// <summary>Suits come off at a marked place.</summary>
    public bool? SuitsOffAtMarkedPlace { get; init; }

    /// <summary>Used suits and gloves go into a closed bag.</summary>
    public bool? SuitsBagged { get; init; }

    /// <summary>Hands and face are washed before food, smoking and driving.</summary>
    public bool? WashFirst { get; init; }

    /// <summary>Nothing that foam has touched goes home.</summary>
    public bool? NothingGoesHome { get; init; }
}

/// <summary>How a person is brought out of a harness or a permit space.</summary>
public sealed record RescuePlan : PlanNode
{
    /// <summary>It is written for this place.</summary>
    public bool? Written { get; init; }

    /// <summary>The people and the gear for it are on site.</summary>
    public bool? PeopleAndGearAtHand { get; init; }
}

/// <summary>A list of power lines: absent is "not given", present and empty is "none".</summary>
public sealed record PowerLineList : PlanNode
{
    /// <summary>The lines.</summary>
    public ImmutableArray<PowerLine> Lines { get; init; } = [];
}

/// <summary>An overhead power line.</summary>
public sealed record PowerLine : PlanNode
{
    /// <summary>What people call it.</summary>
    public string? Name { get; init; }

    /// <summary>Its voltage.</summary>
    public ElectricPotential? Voltage { get; init; }

    /// <summary>The least distance to it of anything that is raised, carried or sprayed from.</summary>
    public Length? Distance { get; init; }

    /// <summary>The utility has made it dead, or has sleeved it.</summary>
    public bool? DeadOrSleeved { get; init; }
}
