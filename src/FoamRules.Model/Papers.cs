using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>The licence or certificate of whoever does the foam work.</summary>
public sealed record InstallerQualification : PlanNode
{
    /// <summary>The jurisdiction, or the approval of a product that is used, asks for one.</summary>
    public bool? AskedFor { get; init; }

    /// <summary>It is held, and in date on the day of the work.</summary>
    public bool? Held { get; init; }
}

/// <summary>What is ready for an emergency.</summary>
public sealed record EmergencyPlan : PlanNode
{
    /// <summary>A first-aid kit is at the rig.</summary>
    public bool? FirstAidKit { get; init; }

    /// <summary>A spill kit is at the rig.</summary>
    public bool? SpillKit { get; init; }

    /// <summary>Neutraliser for spilled isocyanate is at the rig.</summary>
    public bool? Neutraliser { get; init; }

    /// <summary>The crew knows its rules: for spills only and never on skin, lids loose afterwards, fresh air with the ammonia type.</summary>
    public bool? NeutraliserRulesKnown { get; init; }

    /// <summary>Emergency numbers are posted.</summary>
    public bool? NumbersPosted { get; init; }

    /// <summary>Everyone knows the rig's kill switch.</summary>
    public bool? KillSwitchKnown { get; init; }

    /// <summary>The alarm and the place to muster are agreed.</summary>
    public bool? AlarmAndMuster { get; init; }

    /// <summary>Someone is named who meets the ambulance.</summary>
    public bool? AmbulanceMet { get; init; }
}

/// <summary>The first-aid card for isocyanate.</summary>
public sealed record FirstAidCard : PlanNode
{
    /// <summary>It hangs at the rig.</summary>
    public bool? AtRig { get; init; }

    /// <summary>Skin: wipe, then much soap and water at once.</summary>
    public bool? Skin { get; init; }

    /// <summary>Eyes: 15 minutes of water, lenses out.</summary>
    public bool? Eyes { get; init; }

    /// <summary>Breath: fresh air, an ambulance on wheeze.</summary>
    public bool? Breath { get; init; }

    /// <summary>Injected under the skin: hospital at once.</summary>
    public bool? Injection { get; init; }

    /// <summary>The safety data sheet goes along.</summary>
    public bool? SheetGoesAlong { get; init; }

    /// <summary>A first-aider or a clinic is in reach.</summary>
    public bool? HelpInReach { get; init; }
}

/// <summary>What the owner has been told and given.</summary>
public sealed record OwnerHandover : PlanNode
{
    /// <summary>A map of filled members and covered faces.</summary>
    public bool? MapGiven { get; init; }

    /// <summary>No hot work on them.</summary>
    public bool? NoHotWork { get; init; }

    /// <summary>Ask before drilling into them.</summary>
    public bool? AskBeforeDrilling { get; init; }

    /// <summary>Keep the covering on.</summary>
    public bool? KeepCoveringOn { get; init; }

    /// <summary>Whom to call about an odour.</summary>
    public bool? OdourContact { get; init; }

    /// <summary>The data sheets and safety data sheets.</summary>
    public bool? SheetsGiven { get; init; }
}

/// <summary>The load on the road.</summary>
public sealed record Haulage : PlanNode
{
    /// <summary>Section 14 of the safety data sheet of every item on the vehicle was read.</summary>
    public bool? TransportSectionsRead { get; init; }

    /// <summary>Cylinders, solvent, cleaner, fuel and packs carry the papers that their class asks.</summary>
    public bool? PapersAsClassAsks { get; init; }

    /// <summary>Drums stand upright and are tied.</summary>
    public bool? DrumsUprightAndTied { get; init; }

    /// <summary>A spill kit is in the cab.</summary>
    public bool? SpillKitInCab { get; init; }
}

/// <summary>Fire detectors and sprinklers in reach of the foam work. Before the work: it is planned so.</summary>
public sealed record FireProtection : PlanNode
{
    /// <summary>There are some.</summary>
    public bool? Present { get; init; }

    /// <summary>The owner agreed to what is out of service, and for how long.</summary>
    public bool? OwnerAgreed { get; init; }

    /// <summary>Sprinkler heads are in thin paper or cellophane only while foam is sprayed. True where there are none.</summary>
    public bool? HeadsBaggedOnlyWhileSpraying { get; init; }

    /// <summary>Heads that foam or overspray got onto are replaced. True where there are none.</summary>
    public bool? CoatedHeadsReplaced { get; init; }

    /// <summary>Detectors are uncovered again. True where there are none.</summary>
    public bool? DetectorsUncovered { get; init; }

    /// <summary>The system is back in service before people come back.</summary>
    public bool? BackOnBeforeReturn { get; init; }
}

/// <summary>What is left over, and where it goes.</summary>
public sealed record WastePlan : PlanNode
{
    /// <summary>Drains near the work and the rig are covered.</summary>
    public bool? DrainsCovered { get; init; }

    /// <summary>Liquids stand in a bund.</summary>
    public bool? LiquidsBunded { get; init; }

    /// <summary>The kinds of waste that have a named way out; empty: not given.</summary>
    public ImmutableArray<WasteStream> WaysOut { get; init; } = [];

    /// <summary>How long lids stay loose on waste that can still react.</summary>
    public Duration? LidsLooseFor { get; init; }

    /// <summary>It is known to whom a release is reported.</summary>
    public bool? ReleaseContactKnown { get; init; }
}

/// <summary>A kind of waste.</summary>
public enum WasteStream
{
    /// <summary>Left-over isocyanate, the A component.</summary>
    AComponent = 1,

    /// <summary>Left-over resin, the B component.</summary>
    BComponent = 2,

    /// <summary>Neutralised isocyanate.</summary>
    Neutralised = 3,

    /// <summary>Solvent and gun cleaner.</summary>
    Solvent = 4,

    /// <summary>Empty drums.</summary>
    Drums = 5,

    /// <summary>Used protective equipment.</summary>
    ProtectiveEquipment = 6,

    /// <summary>Cured foam.</summary>
    Foam = 7,
}

/// <summary>The written programme for respirators.</summary>
public sealed record RespiratorProgramme : PlanNode
{
    /// <summary>It is written for this work: choice, fit, use, care and air of respirators.</summary>
    public bool? Written { get; init; }

    /// <summary>It names who runs it.</summary>
    public bool? AdministratorNamed { get; init; }
}

/// <summary>What the crew was told of symptoms.</summary>
public sealed record SymptomBriefing : PlanNode
{
    /// <summary>The signs: cough, wheeze, tight chest, rash.</summary>
    public bool? Signs { get; init; }

    /// <summary>Whoever has one leaves the work.</summary>
    public bool? LeaveWork { get; init; }

    /// <summary>They see a doctor and say "isocyanate".</summary>
    public bool? TellDoctor { get; init; }

    /// <summary>They do not come back until they are cleared.</summary>
    public bool? BackOnlyWhenCleared { get; init; }

    /// <summary>It may start hours later, at home.</summary>
    public bool? MayStartLater { get; init; }
}

/// <summary>Power from temporary outlets.</summary>
public sealed record TemporaryPower : PlanNode
{
    /// <summary>Tools, lights or fans run from temporary outlets.</summary>
    public bool? Used { get; init; }

    /// <summary>A ground-fault circuit interrupter protects each outlet.</summary>
    public bool? GroundFaultProtected { get; init; }

    /// <summary>Instead, an assured-grounding programme is kept: cords and tools are tested and logged.</summary>
    public bool? AssuredGrounding { get; init; }
}

/// <summary>Close-out: the certificate that stays on site.</summary>
public sealed record JobCertificate : PlanNode
{
    /// <summary>It says which product.</summary>
    public bool? Product { get; init; }

    /// <summary>It says the thickness as built.</summary>
    public bool? Thickness { get; init; }

    /// <summary>It says the R-value.</summary>
    public bool? RValue { get; init; }

    /// <summary>That R-value is the maker's for this thickness, not R of an inch times inches.</summary>
    public bool? RForThisThickness { get; init; }

    /// <summary>It says the area covered.</summary>
    public bool? Area { get; init; }

    /// <summary>It says the lots.</summary>
    public bool? Lots { get; init; }

    /// <summary>It is dated.</summary>
    public bool? Dated { get; init; }

    /// <summary>It is signed.</summary>
    public bool? Signed { get; init; }

    /// <summary>It was left on site.</summary>
    public bool? LeftOnSite { get; init; }
}

/// <summary>Quote: for what it is settled who pays. Where the job has nothing of the kind, the answer is yes.</summary>
public sealed record PricedScope : PlanNode
{
    /// <summary>The barrier over the foam.</summary>
    public bool? Barrier { get; init; }

    /// <summary>Ventilation.</summary>
    public bool? Ventilation { get; init; }

    /// <summary>Supplied air.</summary>
    public bool? SuppliedAir { get; init; }

    /// <summary>Moving people out and back.</summary>
    public bool? MovingPeople { get; init; }

    /// <summary>The engineer.</summary>
    public bool? Engineer { get; init; }

    /// <summary>Holes and their repair.</summary>
    public bool? HolesAndRepair { get; init; }

    /// <summary>Test shots.</summary>
    public bool? TestShots { get; init; }

    /// <summary>The last check for heat.</summary>
    public bool? LastHeatCheck { get; init; }

    /// <summary>Days of waiting.</summary>
    public bool? WaitingDays { get; init; }

    /// <summary>Overspray: what keeps it off, and what it spoils.</summary>
    public bool? Overspray { get; init; }

    /// <summary>Waste.</summary>
    public bool? Waste { get; init; }

    /// <summary>Samples.</summary>
    public bool? Samples { get; init; }
}
