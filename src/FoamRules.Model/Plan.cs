using System.Collections.Immutable;
using UnitsNet;

namespace FoamRules.Model;

/// <summary>One job as submitted.</summary>
public sealed record Plan : PlanNode
{
    /// <summary>What people call the job.</summary>
    public string Name { get; init; } = "";

    /// <summary>The moment at which the plan is judged; severities depend on it.</summary>
    public Stage Stage { get; init; }

    /// <summary>The day on which foam is sprayed or poured first, ISO 8601.</summary>
    public DateOnly? WorkDate { get; init; }

    /// <summary>"Now" for readings, expiries and clocks. The engine has no clock of its own; a caller that leaves this out gets the caller's own clock written in.</summary>
    public DateTimeOffset? JudgedAt { get; init; }

    /// <summary>The time zone of the site by its IANA name.</summary>
    public string? TimeZone { get; init; }

    /// <summary>Where the job is, for the rules that apply.</summary>
    public Jurisdiction? Jurisdiction { get; init; }

    /// <summary>The rule sets to judge by, besides general practice, such as us-ibc-2021; general practice always stands below them.</summary>
    public ImmutableArray<string> RuleSets { get; init; } = [];

    /// <summary>The building and the site as a whole.</summary>
    public Site? Site { get; init; }

    /// <summary>The places in which foam is worked, each with its own air.</summary>
    public ImmutableArray<WorkArea> Areas { get; init; } = [];

    /// <summary>The products, as their data sheets describe them; never a brand. Where only the kind is known, give that.</summary>
    public ImmutableArray<Product> Products { get; init; } = [];

    /// <summary>The people who work in the areas. An area with foam work and nobody named is judged for an unknown crew.</summary>
    public ImmutableArray<Person> People { get; init; } = [];

    /// <summary>The proportioner, hoses, drums and gun.</summary>
    public Gear? Gear { get; init; }

    /// <summary>The foam work; at least one piece.</summary>
    public ImmutableArray<WorkItem> Work { get; init; } = [];

    /// <summary>What an earlier review of this plan left open; for pre-start and close-out.</summary>
    public Review? Review { get; init; }

    /// <summary>Who answers for the job on site; printed on every sheet.</summary>
    public string? ResponsiblePerson { get; init; }

    /// <summary>The licence or certificate of whoever does the foam work.</summary>
    public InstallerQualification? Installer { get; init; }

    /// <summary>What is ready for an emergency.</summary>
    public EmergencyPlan? EmergencyPlan { get; init; }

    /// <summary>The first-aid card for isocyanate.</summary>
    public FirstAidCard? FirstAidCard { get; init; }

    /// <summary>What the owner has been told and given.</summary>
    public OwnerHandover? OwnerHandover { get; init; }

    /// <summary>The load on the road.</summary>
    public Haulage? Haulage { get; init; }

    /// <summary>What is left over, and where it goes.</summary>
    public WastePlan? Waste { get; init; }

    /// <summary>Fire detectors and sprinklers in reach of the foam work.</summary>
    public FireProtection? FireProtection { get; init; }

    /// <summary>The written programme for respirators.</summary>
    public RespiratorProgramme? RespiratorProgramme { get; init; }

    /// <summary>What the crew was told of symptoms.</summary>
    public SymptomBriefing? SymptomBriefing { get; init; }

    /// <summary>Power from temporary outlets.</summary>
    public TemporaryPower? TemporaryPower { get; init; }

    /// <summary>Close-out: the certificate that stays on site.</summary>
    public JobCertificate? JobCertificate { get; init; }

    /// <summary>Quote: for what it is settled who pays.</summary>
    public PricedScope? PricedScope { get; init; }
}

/// <summary>The moment at which a plan is judged.</summary>
public enum Stage
{
    /// <summary>Before a price goes out.</summary>
    Quote = 1,

    /// <summary>The job plan under review.</summary>
    Plan = 2,

    /// <summary>On site, minutes before the trigger; asked again after every break, restart, new lot or change of weather.</summary>
    PreStart = 3,

    /// <summary>Afterwards: the foam as built.</summary>
    CloseOut = 4,
}

/// <summary>Where the job is.</summary>
public sealed record Jurisdiction : PlanNode
{
    /// <summary>The country by ISO 3166-1.</summary>
    public string? Country { get; init; }

    /// <summary>The state, province or region by ISO 3166-2.</summary>
    public string? Region { get; init; }

    /// <summary>The authority having jurisdiction, as people call it.</summary>
    public string? Authority { get; init; }

    /// <summary>The permit's number.</summary>
    public string? Permit { get; init; }
}

/// <summary>What an earlier review of this plan found.</summary>
public sealed record Review : PlanNode
{
    /// <summary>When it was reviewed.</summary>
    public DateTimeOffset? ReviewedAt { get; init; }

    /// <summary>The person who reviewed it.</summary>
    public string? ReviewedBy { get; init; }

    /// <summary>Stops found at review that nothing has cured since.</summary>
    public int? OpenStops { get; init; }

    /// <summary>Holds found at review that nobody named for them has released.</summary>
    public int? OpenHolds { get; init; }

    /// <summary>When the last pre-start check of today was made.</summary>
    public DateTimeOffset? LastPreStartAt { get; init; }

    /// <summary>What has happened since that check and asks for a new one; empty: nothing.</summary>
    public ChangeList? ChangesSince { get; init; }

    /// <summary>The longest break since the last check.</summary>
    public Duration? LongestBreak { get; init; }

    /// <summary>What this plan says otherwise than the one that was reviewed. Present and empty: nothing.</summary>
    public PlanDifferenceList? Differences { get; init; }
}

/// <summary>A list of differences that can be known to be empty: absent is "not given", present and empty is "none".</summary>
public sealed record PlanDifferenceList : PlanNode
{
    /// <summary>The differences.</summary>
    public ImmutableArray<PlanDifference> Differences { get; init; } = [];
}

/// <summary>A field that says something else than at the review.</summary>
public sealed record PlanDifference : PlanNode
{
    /// <summary>The field's path in the plan, such as work[wall].spray.thickness.</summary>
    public string? Path { get; init; }

    /// <summary>What it said at the review; nothing where it was not given.</summary>
    public string? Was { get; init; }

    /// <summary>What it says now; nothing where it is not given.</summary>
    public string? Is { get; init; }
}

/// <summary>A list of changes that can be known to be empty: absent is "not given", present and empty is "none".</summary>
public sealed record ChangeList : PlanNode
{
    /// <summary>The changes.</summary>
    public ImmutableArray<Change> Changes { get; init; } = [];
}

/// <summary>What makes a pre-start check be asked again.</summary>
public enum Change
{
    /// <summary>The machine was started again.</summary>
    MachineRestart = 1,

    /// <summary>A new lot of either component.</summary>
    NewLot = 2,

    /// <summary>A person who was not in the last check.</summary>
    NewPerson = 3,

    /// <summary>The weather changed.</summary>
    Weather = 4,

    /// <summary>An alarm went off.</summary>
    Alarm = 5,

    /// <summary>Foam that does not look or rise as it should.</summary>
    OffPlanFoam = 6,
}
