using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>A person on the crew.</summary>
public sealed record Person : PlanNode
{
    /// <summary>A short name or a number; real names are not needed.</summary>
    public string Id { get; init; } = "";

    /// <summary>The areas in which they work.</summary>
    public ImmutableArray<string> Areas { get; init; } = [];

    /// <summary>What they do there.</summary>
    public ImmutableArray<CrewTask> Tasks { get; init; } = [];

    /// <summary>What they breathe through.</summary>
    public Respirator? Respirator { get; init; }

    /// <summary>The fit test of that facepiece on this person.</summary>
    public FitTest? FitTest { get; init; }

    /// <summary>Cleared for isocyanate work until this date by an occupational health professional. Of a person's health a plan holds dates and yes or no, never a diagnosis or a result.</summary>
    public DateOnly? ClearedUntil { get; init; }

    /// <summary>An occupational health professional has said that this person is not to be exposed to isocyanates.</summary>
    public bool? BarredFromIsocyanates { get; init; }

    /// <summary>No beard, stubble, spectacle arm or hood edge under the seal, and the seal is checked at each donning.</summary>
    public bool? SealClear { get; init; }

    /// <summary>When they were trained on isocyanates, ISO 8601.</summary>
    public DateOnly? IsocyanateTraining { get; init; }

    /// <summary>What they wear.</summary>
    public Clothing? Clothing { get; init; }

    /// <summary>Their eye protection.</summary>
    public ImmutableArray<EyeProtection> EyeProtection { get; init; } = [];

    /// <summary>They trim, cut or clean within the first hour after the last spraying in that air.</summary>
    public bool? WorksWithinFirstHour { get; init; }

    /// <summary>The loudest level they work in.</summary>
    public Level? NoiseLevel { get; init; }

    /// <summary>How long a day they work in it.</summary>
    public Duration? NoiseTime { get; init; }

    /// <summary>They wear hearing protection.</summary>
    public bool? HearingProtection { get; init; }

    /// <summary>They were cleared before the fit test and before they first used the respirator.</summary>
    public bool? ClearedBeforeUse { get; init; }

    /// <summary>Questionnaire, lung function and, where it is asked for, urine test: current until this date, ISO 8601.</summary>
    public DateOnly? HealthWatchedUntil { get; init; }
}

/// <summary>What a person breathes through.</summary>
public sealed record Respirator : PlanNode
{
    /// <summary>The type by 29 CFR 1910.134.</summary>
    public RespiratorType? Type { get; init; }

    /// <summary>How air is delivered, for supplied-air and self-contained types.</summary>
    public AirMode? Mode { get; init; }

    /// <summary>What covers the face.</summary>
    public Facepiece? Facepiece { get; init; }

    /// <summary>A hood or helmet: the maker's test evidence for a factor of 1,000 is on file.</summary>
    public bool? HoodTestEvidence { get; init; }

    /// <summary>Make, model and size, as one text that the fit test must match.</summary>
    public string? MakeModelSize { get; init; }

    /// <summary>Supplied air: breathing air is Grade D, the inlet lies away from exhaust and overspray, a carbon monoxide alarm is fitted.</summary>
    public bool? BreathingAirClean { get; init; }

    /// <summary>Supplied air: worn until outside the zone, approved hose and couplings, an escape set or a clear path, compressor attended.</summary>
    public bool? AirToTheEnd { get; init; }

    /// <summary>Air-purifying: the greatest concentration that the cartridge is approved for.</summary>
    public MassConcentration? CartridgeLimit { get; init; }

    /// <summary>Air-purifying: there is a written schedule by which cartridges are changed.</summary>
    public bool? ChangeSchedule { get; init; }

    /// <summary>Air-purifying: the cartridge shows the end of its life.</summary>
    public bool? EndOfLifeIndicator { get; init; }
}

/// <summary>The type of a respirator by 29 CFR 1910.134 table 1.</summary>
public enum RespiratorType
{
    /// <summary>None is worn.</summary>
    None = 1,

    /// <summary>Air-purifying.</summary>
    AirPurifying = 2,

    /// <summary>Powered air-purifying.</summary>
    PoweredAirPurifying = 3,

    /// <summary>Supplied air by line.</summary>
    SuppliedAir = 4,

    /// <summary>Self-contained.</summary>
    SelfContained = 5,
}

/// <summary>How air is delivered.</summary>
public enum AirMode
{
    /// <summary>On demand, negative pressure.</summary>
    Demand = 1,

    /// <summary>Continuous flow.</summary>
    ContinuousFlow = 2,

    /// <summary>Pressure demand or other positive pressure.</summary>
    PressureDemand = 3,
}

/// <summary>What covers the face.</summary>
public enum Facepiece
{
    /// <summary>Quarter mask.</summary>
    QuarterMask = 1,

    /// <summary>Half mask.</summary>
    HalfMask = 2,

    /// <summary>Full facepiece.</summary>
    FullFacepiece = 3,

    /// <summary>Helmet or hood.</summary>
    HelmetOrHood = 4,

    /// <summary>Loose-fitting facepiece.</summary>
    LooseFitting = 5,
}

/// <summary>The fit test of a facepiece on this person.</summary>
public sealed record FitTest : PlanNode
{
    /// <summary>When, ISO 8601.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>Make, model and size tested.</summary>
    public string? MakeModelSize { get; init; }

    /// <summary>The face has changed since: weight, scar, teeth.</summary>
    public bool? FaceChangedSince { get; init; }
}

/// <summary>What a person wears.</summary>
public sealed record Clothing : PlanNode
{
    /// <summary>A suit that covers the whole body.</summary>
    public bool? FullSuit { get; init; }

    /// <summary>The gloves' material.</summary>
    public GloveMaterial? Gloves { get; init; }

    /// <summary>Boots or boot covers.</summary>
    public bool? Boots { get; init; }

    /// <summary>A hood or mask that leaves no skin of head and neck bare.</summary>
    public bool? HeadCovered { get; init; }

    /// <summary>Sleeves to the wrist.</summary>
    public bool? LongSleeves { get; init; }
}

/// <summary>The material of gloves.</summary>
public enum GloveMaterial
{
    /// <summary>No gloves.</summary>
    None = 1,

    /// <summary>Nitrile.</summary>
    Nitrile = 2,

    /// <summary>Butyl.</summary>
    Butyl = 3,

    /// <summary>Chloroprene.</summary>
    Chloroprene = 4,

    /// <summary>Polyvinyl chloride.</summary>
    Pvc = 5,

    /// <summary>Chlorinated polyethylene.</summary>
    ChlorinatedPolyethylene = 6,

    /// <summary>Fluoroelastomer.</summary>
    Fluoroelastomer = 7,

    /// <summary>Leather.</summary>
    Leather = 8,

    /// <summary>Latex.</summary>
    Latex = 9,

    /// <summary>Cotton or other cloth.</summary>
    Cloth = 10,
}

/// <summary>Eye protection.</summary>
public enum EyeProtection
{
    /// <summary>None is worn.</summary>
    None = 1,

    /// <summary>Safety glasses.</summary>
    SafetyGlasses = 2,

    /// <summary>Goggles.</summary>
    Goggles = 3,

    /// <summary>Face shield.</summary>
    FaceShield = 4,

    /// <summary>The full facepiece of a respirator.</summary>
    FullFacepiece = 5,
}
