namespace FoamRules.Rules.Hazards;

/// <summary>What can go wrong in foam work. Its name and its reasons stand in the rule set, under its name in lower case.</summary>
public enum HazardKind
{
    /// <summary>The foam is not made for this place.</summary>
    WrongFoam,

    /// <summary>Foam heats itself from inside.</summary>
    HeatInFoam,

    /// <summary>The surface or the air does not let foam stick and cure.</summary>
    PoorBond,

    /// <summary>Air cannot leave a closed cavity.</summary>
    TrappedAir,

    /// <summary>Rising foam presses on the cavity's walls.</summary>
    PressureInCavity,

    /// <summary>A part of a cavity stays empty and nobody sees it.</summary>
    HiddenVoid,

    /// <summary>Holes weaken a member, or meet what is behind it.</summary>
    HolesInMember,

    /// <summary>Foam burns, and feeds a fire if it is bare.</summary>
    FoamThatBurns,

    /// <summary>Sparks, flames or hot metal meet foam.</summary>
    Ignition,

    /// <summary>The two components are not mixed as they should be.</summary>
    OffRatioFoam,

    /// <summary>Liquid and air stand under pressure in hoses and drums.</summary>
    PressureInGear,

    /// <summary>Appliances that burn with an open flame lose their air, and their flue gas comes into the rooms.</summary>
    FlueGas,

    /// <summary>Isocyanate and other vapours and aerosol are in the air.</summary>
    IsocyanateInAir,

    /// <summary>People who are not on the crew breathe what the work gives off.</summary>
    BystandersExposed,

    /// <summary>Liquid, aerosol or dust meets skin and eyes.</summary>
    SkinAndEyeContact,

    /// <summary>Engine exhaust reaches people.</summary>
    EngineExhaust,

    /// <summary>People fall.</summary>
    Fall,

    /// <summary>People cannot get out, or the air inside does not keep them alive.</summary>
    NoWayOut,

    /// <summary>Somebody hangs in a harness or lies in a permit space and cannot help themselves.</summary>
    NeedOfRescue,

    /// <summary>Lines overhead and temporary outlets are live.</summary>
    LivePower,

    /// <summary>Wiring, gas, water or old fill hides behind what is drilled and filled.</summary>
    HiddenServices,

    /// <summary>Old materials give off asbestos, lead or silica dust.</summary>
    HarmfulDust,

    /// <summary>Noise and heat strain the crew.</summary>
    Strain,

    /// <summary>Heat leaves through the envelope and water gathers where it is cold.</summary>
    ColdAndDamp,

    /// <summary>A decision is not made, not written down, or not known to those who need it.</summary>
    Unrecorded,
}
