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
