using UnitsNet;

namespace FoamRules.Model;

/// <summary>The proportioner, hoses, drums and gun.</summary>
public sealed record Gear : PlanNode
{
    /// <summary>The mixing ratio, measured.</summary>
    public RatioCheck? RatioCheck { get; init; }

    /// <summary>The gun's output with the chamber in use.</summary>
    public MassFlow? Output { get; init; }

    /// <summary>Lag between the trigger and the first foam; 0.3 s is 10 % of a shot of 3 s.</summary>
    public Duration? TriggerLag { get; init; }

    /// <summary>The share of material lost.</summary>
    public Ratio? Waste { get; init; }

    /// <summary>The mass of one set of drums.</summary>
    public Mass? SetMass { get; init; }

    /// <summary>The diameter of the nozzle that goes into a fill hole.</summary>
    public Length? NozzleDiameter { get; init; }

    /// <summary>The temperature of the mix as it leaves the gun or the nozzle.</summary>
    public Temperature? MixTemperature { get; init; }

    /// <summary>How the output was measured.</summary>
    public OutputCheck? OutputCheck { get; init; }

    /// <summary>The heated hose from the rig to the gun.</summary>
    public Hose? Hose { get; init; }

    /// <summary>The pressures of both sides while material flows.</summary>
    public PressureCheck? PressureCheck { get; init; }

    /// <summary>The temperatures of both liquids at the gun.</summary>
    public FluidTemperatures? FluidTemperatures { get; init; }

    /// <summary>An extension between the gun and a fill hole.</summary>
    public NozzleExtension? NozzleExtension { get; init; }

    /// <summary>A drier or a water separator is fitted to the air that purges the gun.</summary>
    public bool? PurgeAirDry { get; init; }

    /// <summary>How people are kept from what stands under pressure.</summary>
    public PressureSafety? PressureSafety { get; init; }

    /// <summary>How drums are looked at and opened.</summary>
    public DrumCare? DrumCare { get; init; }

    /// <summary>How lithium battery packs are kept.</summary>
    public BatteryCare? Batteries { get; init; }
}

/// <summary>The mixing ratio, measured.</summary>
public sealed record RatioCheck : PlanNode
{
    /// <summary>Deviation from nominal, either way.</summary>
    public Ratio? Deviation { get; init; }

    /// <summary>When it was measured.</summary>
    public DateTimeOffset? At { get; init; }

    /// <summary>It was measured since the machine was last started.</summary>
    public bool? SinceStartUp { get; init; }

    /// <summary>The imbalance shut-off was tried and works.</summary>
    public bool? ImbalanceShutOffWorks { get; init; }

    /// <summary>The empty-drum shut-off was tried and works.</summary>
    public bool? EmptyDrumShutOffWorks { get; init; }
}

/// <summary>How the output was measured.</summary>
public sealed record OutputCheck : PlanNode
{
    /// <summary>By a shot that was timed and weighed, with the chamber and the nozzle in use.</summary>
    public bool? TimedAndWeighed { get; init; }

    /// <summary>When it was measured.</summary>
    public DateTimeOffset? At { get; init; }
}

/// <summary>The heated hose from the rig to the gun.</summary>
public sealed record Hose : PlanNode
{
    /// <summary>Its length, whip included.</summary>
    public Length? Length { get; init; }

    /// <summary>The height from the rig to the furthest work.</summary>
    public Length? Rise { get; init; }

    /// <summary>The way along the floor from the rig to the furthest work, around what stands in it.</summary>
    public Length? Run { get; init; }

    /// <summary>The longest hose that the rig is rated for.</summary>
    public Length? RatedLength { get; init; }
}

/// <summary>The pressures of both sides while material flows.</summary>
public sealed record PressureCheck : PlanNode
{
    /// <summary>The isocyanate side.</summary>
    public Pressure? ASide { get; init; }

    /// <summary>The resin side.</summary>
    public Pressure? BSide { get; init; }

    /// <summary>The greatest difference that the machine's manual or the data sheet allows, whichever is less.</summary>
    public Pressure? MaxDifference { get; init; }
}

/// <summary>The temperatures of both liquids at the gun.</summary>
public sealed record FluidTemperatures : PlanNode
{
    /// <summary>The isocyanate side.</summary>
    public Temperature? ASide { get; init; }

    /// <summary>The resin side.</summary>
    public Temperature? BSide { get; init; }
}

/// <summary>An extension between the gun and a fill hole.</summary>
public sealed record NozzleExtension : PlanNode
{
    /// <summary>One is used.</summary>
    public bool? Used { get; init; }

    /// <summary>Its length.</summary>
    public Length? Length { get; init; }

    /// <summary>The longest that the gun's maker allows.</summary>
    public Length? MakerLimit { get; init; }
}

/// <summary>How people are kept from what stands under pressure.</summary>
public sealed record PressureSafety : PlanNode
{
    /// <summary>Hoses, fittings and whip ends were inspected.</summary>
    public bool? HosesInspected { get; init; }

    /// <summary>Hoses, fittings and whip ends are rated for the machine's greatest pressure.</summary>
    public bool? HosesRated { get; init; }

    /// <summary>The inside diameter of the widest compressed-air hose.</summary>
    public Length? AirHoseBore { get; init; }

    /// <summary>A device at its source shuts it off when it bursts.</summary>
    public bool? AirHoseShutOff { get; init; }

    /// <summary>The gun is locked whenever it is not spraying or pouring.</summary>
    public bool? GunLocked { get; init; }

    /// <summary>Pressure is bled before work on tips, plugs or drums.</summary>
    public bool? PressureBledFirst { get; init; }

    /// <summary>The crew knows: injected under the skin, however small, is hospital at once.</summary>
    public bool? InjectionToHospital { get; init; }
}

/// <summary>How drums are looked at and opened.</summary>
public sealed record DrumCare : PlanNode
{
    /// <summary>No drum is bulged, hisses, is hot or has had water in it.</summary>
    public bool? AllSound { get; init; }

    /// <summary>A drum that is not sound is left where it is: not opened, not moved, not sealed again.</summary>
    public bool? SuspectLeftInPlace { get; init; }

    /// <summary>People are kept away from it.</summary>
    public bool? AreaCleared { get; init; }

    /// <summary>The supplier was called.</summary>
    public bool? SupplierCalled { get; init; }

    /// <summary>Bungs of sound drums are opened slowly.</summary>
    public bool? BungsOpenedSlowly { get; init; }
}

/// <summary>How lithium battery packs are kept. Where there are none, every answer is yes.</summary>
public sealed record BatteryCare : PlanNode
{
    /// <summary>They are charged outside the work's zone.</summary>
    public bool? ChargedOutsideZone { get; init; }

    /// <summary>They are charged away from foam, its waste and its liquids.</summary>
    public bool? ChargedOffFoam { get; init; }

    /// <summary>They are charged away from the way out.</summary>
    public bool? ChargedOffExit { get; init; }

    /// <summary>Packs that are hot, swollen or foamed over go outside at once.</summary>
    public bool? DamagedTakenOut { get; init; }
}
