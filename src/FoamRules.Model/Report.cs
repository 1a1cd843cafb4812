using System.Collections.Immutable;

namespace FoamRules.Model;

/// <summary>The answer to one plan: which requirements are met, not met or not judged. Never "legal" or "safe".</summary>
public sealed record Report
{
    /// <summary>The plan's name.</summary>
    public required string PlanName { get; init; }

    /// <summary>The stage at which it was judged.</summary>
    public required Stage Stage { get; init; }

    /// <summary>The worst that stands.</summary>
    public required Disposition Disposition { get; init; }

    /// <summary>The disposition in words, with what could not be judged.</summary>
    public string Summary { get; init; } = "";

    /// <summary>How many requirements were judged, and how they came out.</summary>
    public required Counts Counts { get; init; }

    /// <summary>What the reader must see: severity first, then subject, then requirement.</summary>
    public ImmutableArray<Finding> Findings { get; init; } = [];

    /// <summary>Every requirement on every subject, with the reason where it did not apply.</summary>
    public ImmutableArray<Judgement> Judgements { get; init; } = [];

    /// <summary>The hazards that the work brings, and what is asked because of them.</summary>
    public ImmutableArray<Hazard> Hazards { get; init; } = [];

    /// <summary>Today's numbers.</summary>
    public ImmutableArray<Number> Numbers { get; init; } = [];

    /// <summary>What happens when, on the site's clock.</summary>
    public ImmutableArray<ScheduleEntry> Schedule { get; init; } = [];

    /// <summary>What is not known: the worst that could come out first, then what most requirements wait for.</summary>
    public ImmutableArray<UnknownInput> Unknowns { get; init; } = [];

    /// <summary>Topics that these rule sets do not judge yet.</summary>
    public ImmutableArray<string> TopicsNotJudged { get; init; } = [];

    /// <summary>When the pre-start check must be made again.</summary>
    public ImmutableArray<string> AskAgainWhen { get; init; } = [];

    /// <summary>Cautions that stand on every report.</summary>
    public ImmutableArray<string> Cautions { get; init; } = [];

    /// <summary>The rule sets used, the lowest layer first.</summary>
    public ImmutableArray<RuleSetUsed> RuleSets { get; init; } = [];

    /// <summary>Relaxations in force.</summary>
    public ImmutableArray<string> Relaxations { get; init; } = [];

    /// <summary>How the rule sets were chosen, where that is not plain from the plan.</summary>
    public ImmutableArray<string> RuleSetNotes { get; init; } = [];

    /// <summary>The time that was taken as now; null where the plan gives none.</summary>
    public DateTimeOffset? JudgedAt { get; init; }

    /// <summary>SHA-256 of the plan as read, in hexadecimal.</summary>
    public string PlanDigest { get; init; } = "";

    /// <summary>The engine's version.</summary>
    public string EngineVersion { get; init; } = "";

    /// <summary>False when judging a requirement failed: the report is then incomplete and at least on hold.</summary>
    public bool Complete { get; init; } = true;

    /// <summary>Who answers for the job on site; empty where the plan does not say.</summary>
    public string ResponsiblePerson { get; init; } = "";

    /// <summary>The unit system of the sentences in this report.</summary>
    public required DisplayUnits Units { get; init; }

    /// <summary>Pictures of the calculations, where the caller asked for them.</summary>
    public ImmutableArray<Picture> Pictures { get; init; } = [];

    /// <summary>The language of the sentences, a tag by BCP 47.</summary>
    public string Language { get; init; } = "en";

    /// <summary>What stands behind a translation: that no speaker of the trade has reviewed it, or how much of it stands in English.</summary>
    public ImmutableArray<string> LanguageNotes { get; init; } = [];

    /// <summary>The mark between the whole and the parts of a number in the sentences.</summary>
    public string DecimalMark { get; init; } = ".";

    /// <summary>What must be in the price, at quote and at plan.</summary>
    public ImmutableArray<PriceLine> PriceLines { get; init; } = [];

    /// <summary>Changes of the plan that were tried and checked again; null where the caller did not ask for them.</summary>
    public RemedyReport? Remedies { get; init; }
}

/// <summary>The units in which numbers are shown.</summary>
public enum DisplayUnits
{
    /// <summary>US customary.</summary>
    Us = 1,

    /// <summary>SI.</summary>
    Si = 2,
}

/// <summary>The worst that stands in a report.</summary>
public enum Disposition
{
    /// <summary>No stop, hold or caution found on what was given.</summary>
    Proceed = 1,

    /// <summary>No stop or hold found on what was given; cautions stand.</summary>
    ProceedWithCautions = 2,

    /// <summary>A named person must release something first.</summary>
    Hold = 3,

    /// <summary>Do not start or go on.</summary>
    Stop = 4,
}

/// <summary>The outcome of a requirement on a subject.</summary>
public enum Outcome
{
    /// <summary>Met.</summary>
    Met = 1,

    /// <summary>Not met.</summary>
    NotMet = 2,

    /// <summary>An input is missing: it is named. Never counted as met.</summary>
    Undetermined = 3,

    /// <summary>It does not apply, for a reason that is given.</summary>
    NotApplicable = 4,

    /// <summary>Judging itself failed.</summary>
    Faulted = 5,
}

/// <summary>How hard a finding bites.</summary>
public enum Severity
{
    /// <summary>Good to know.</summary>
    Reminder = 1,

    /// <summary>Take care.</summary>
    Caution = 2,

    /// <summary>A named person must release it first.</summary>
    HoldPoint = 3,

    /// <summary>Do not start or go on.</summary>
    StopWork = 4,
}

/// <summary>How many requirements were judged.</summary>
/// <param name="Requirements">Requirements in the rule sets.</param>
/// <param name="Judged">Requirements judged on at least one subject at this stage.</param>
/// <param name="Met">Judgements: met.</param>
/// <param name="NotMet">Judgements: not met.</param>
/// <param name="Undetermined">Judgements: undetermined.</param>
/// <param name="NotApplicable">Judgements: not applicable.</param>
/// <param name="Faulted">Judgements that failed.</param>
public sealed record Counts(int Requirements, int Judged, int Met, int NotMet, int Undetermined, int NotApplicable, int Faulted);

/// <summary>What a requirement is judged on.</summary>
/// <param name="Kind">Its kind.</param>
/// <param name="Id">Its id in the plan; empty for the plan itself.</param>
public sealed record Subject(SubjectKind Kind, string Id);

/// <summary>The kind of a subject.</summary>
public enum SubjectKind
{
    /// <summary>The plan as a whole.</summary>
    Plan = 1,

    /// <summary>A work area.</summary>
    Area = 2,

    /// <summary>A work item.</summary>
    Work = 3,

    /// <summary>A product.</summary>
    Product = 4,

    /// <summary>A person.</summary>
    Person = 5,
}

/// <summary>A requirement on a subject that the reader must see.</summary>
public sealed record Finding
{
    /// <summary>The requirement's id.</summary>
    public required string Requirement { get; init; }

    /// <summary>What it was judged on.</summary>
    public required Subject Subject { get; init; }

    /// <summary>The outcome.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>How hard it bites at this stage.</summary>
    public required Severity Severity { get; init; }

    /// <summary>What must hold.</summary>
    public string MustHold { get; init; } = "";

    /// <summary>What was found, in a sentence.</summary>
    public string Found { get; init; } = "";

    /// <summary>The value found; null where there is no single one.</summary>
    public Measure? Value { get; init; }

    /// <summary>The limit it was held against; null where there is none.</summary>
    public LimitUsed? Limit { get; init; }

    /// <summary>How far on the right side of the limit; negative when it is broken.</summary>
    public Measure? Margin { get; init; }

    /// <summary>What in the plan it rests on.</summary>
    public ImmutableArray<Evidence> Evidence { get; init; } = [];

    /// <summary>Paths of inputs that are missing.</summary>
    public ImmutableArray<string> Missing { get; init; } = [];

    /// <summary>How the number was worked out.</summary>
    public ImmutableArray<WorkedStep> Steps { get; init; } = [];

    /// <summary>The sources behind it.</summary>
    public ImmutableArray<SourceUsed> Sources { get; init; } = [];

    /// <summary>What would put it right.</summary>
    public string Remedy { get; init; } = "";

    /// <summary>The caution that stands on it.</summary>
    public string Caution { get; init; } = "";

    /// <summary>Who may release a hold; empty where only a changed fact cures it.</summary>
    public ImmutableArray<string> ReleaseRoles { get; init; } = [];

    /// <summary>Why the severity is lower than the rule set's, where the sources cap it; otherwise empty.</summary>
    public string CappedBecause { get; init; } = "";

    /// <summary>The hazard that the requirement answers.</summary>
    public string Hazard { get; init; } = "";

    /// <summary>The rule set that set the severity; empty where judging failed.</summary>
    public string SeverityLayer { get; init; } = "";
}

/// <summary>A limit that a value was held against.</summary>
/// <param name="Name">Its name in the rule set.</param>
/// <param name="Value">Its value.</param>
/// <param name="Direction">Which side is met.</param>
/// <param name="Layer">The rule set that decided, or the product's data sheet.</param>
/// <param name="Below">What the other layers say of the same limit, the lowest first.</param>
/// <param name="WorkedOut">True where the value follows from a figure that is written; it is shown rounded to its side.</param>
public sealed record LimitUsed(string Name, Measure Value, LimitDirection Direction, string Layer, ImmutableArray<LimitBelow> Below, bool WorkedOut = false);

/// <summary>What another layer says of a limit that did not decide.</summary>
/// <param name="Layer">The rule set.</param>
/// <param name="Value">Its value.</param>
/// <param name="Direction">Which side is met.</param>
public sealed record LimitBelow(string Layer, Measure Value, LimitDirection Direction);

/// <summary>Which side of a limit is met.</summary>
public enum LimitDirection
{
    /// <summary>At most the limit; a lower limit is tighter.</summary>
    AtMost = 1,

    /// <summary>At least the limit; a higher limit is tighter.</summary>
    AtLeast = 2,
}

/// <summary>What in the plan a judgement rests on.</summary>
/// <param name="Path">The field's path in the plan.</param>
/// <param name="Value">Its value; null where it is not a single one.</param>
public sealed record Evidence(string Path, Measure? Value);

/// <summary>A source behind a limit.</summary>
/// <param name="Citation">Document, edition and section.</param>
/// <param name="Status">How it is known.</param>
/// <param name="Layer">The rule set that names it.</param>
public sealed record SourceUsed(string Citation, SourceStatus Status, string Layer);

/// <summary>How a source is known.</summary>
public enum SourceStatus
{
    /// <summary>Somebody read the text.</summary>
    Read = 1,

    /// <summary>Somebody read a text that restates it.</summary>
    Secondary = 2,

    /// <summary>Recalled; nobody read it for this rule set.</summary>
    FromMemory = 3,

    /// <summary>Common practice, no source.</summary>
    CommonPractice = 4,

    /// <summary>The product's data sheet, as given in the plan.</summary>
    DataSheet = 5,

    /// <summary>Arithmetic on the plan's own figures.</summary>
    Arithmetic = 6,
}

/// <summary>One requirement on one subject.</summary>
public sealed record Judgement
{
    /// <summary>The requirement's id.</summary>
    public required string Requirement { get; init; }

    /// <summary>What it was judged on.</summary>
    public required Subject Subject { get; init; }

    /// <summary>The outcome.</summary>
    public required Outcome Outcome { get; init; }

    /// <summary>How hard it bites; null when there is nothing to do.</summary>
    public Severity? Severity { get; init; }

    /// <summary>Why it does not apply, or what failed; otherwise empty.</summary>
    public string Reason { get; init; } = "";

    /// <summary>The value found; null where there is no single one.</summary>
    public Measure? Value { get; init; }

    /// <summary>The limit it was held against; null where there is none.</summary>
    public LimitUsed? Limit { get; init; }

    /// <summary>How far on the right side of the limit; negative when it is broken.</summary>
    public Measure? Margin { get; init; }

    /// <summary>What in the plan it rests on.</summary>
    public ImmutableArray<Evidence> Evidence { get; init; } = [];
}

/// <summary>A hazard that the work brings, with the chain to what is asked because of it.</summary>
/// <param name="Name">The hazard.</param>
/// <param name="Step">The step of the job that brings it.</param>
/// <param name="Because">Why it is there.</param>
/// <param name="Asks">The requirements asked because of it, by id.</param>
public sealed record Hazard(string Name, Subject Step, string Because, ImmutableArray<string> Asks);

/// <summary>One of today's numbers.</summary>
public sealed record Number
{
    /// <summary>What it belongs to.</summary>
    public required Subject Subject { get; init; }

    /// <summary>What it is.</summary>
    public required string Name { get; init; }

    /// <summary>The value to aim for; null where only an end is known.</summary>
    public Measure? Aim { get; init; }

    /// <summary>The low end; null where there is none.</summary>
    public Measure? Low { get; init; }

    /// <summary>The high end; null where there is none.</summary>
    public Measure? High { get; init; }

    /// <summary>What to know about it.</summary>
    public string Note { get; init; } = "";

    /// <summary>How it was worked out.</summary>
    public ImmutableArray<WorkedStep> Steps { get; init; } = [];

    /// <summary>The compartment of a cavity, from 1 at the foot, for the seconds of a shot; 0 for other numbers.</summary>
    public int Compartment { get; init; }
}

/// <summary>What happens when.</summary>
/// <param name="Subject">What it belongs to.</param>
/// <param name="At">When.</param>
/// <param name="LocalTime">When, as it stands on the site's clock.</param>
/// <param name="What">What happens.</param>
public sealed record ScheduleEntry(Subject Subject, DateTimeOffset At, string LocalTime, string What);

/// <summary>An input that is not known.</summary>
/// <param name="Path">The field's path.</param>
/// <param name="Waiting">How many judgements wait for it.</param>
/// <param name="Worst">The worst that could come out; null where no severity is set at this stage.</param>
/// <param name="Requirements">The requirements that wait.</param>
/// <param name="Question">The question for it, as a person would ask it.</param>
public sealed record UnknownInput(string Path, int Waiting, Severity? Worst, ImmutableArray<string> Requirements, string Question);

/// <summary>A rule set used.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Version">Its version.</param>
/// <param name="Digest">SHA-256 of its files, in hexadecimal.</param>
/// <param name="Status">Whether it is a draft, in force or withdrawn.</param>
/// <param name="EffectiveFrom">The first day on which it holds, ISO 8601; empty: it names none.</param>
/// <param name="EffectiveUntil">The last day on which it holds, ISO 8601; empty: it names none.</param>
/// <param name="Countries">The countries in which it holds, by ISO 3166-1; empty: it names none.</param>
/// <param name="Region">The region in which alone it holds, by ISO 3166-2; empty: it names none.</param>
/// <param name="Title">What people call it.</param>
public sealed record RuleSetUsed(
    string Id, string Version, string Digest, RuleSetStatus Status, string EffectiveFrom, string EffectiveUntil, ImmutableArray<string> Countries, string Region, string Title);

/// <summary>Whether a rule set counts.</summary>
public enum RuleSetStatus
{
    /// <summary>Being written: it counts only where a plan or a caller names it.</summary>
    Draft = 1,

    /// <summary>In force.</summary>
    InForce = 2,

    /// <summary>Withdrawn: it counts nowhere.</summary>
    Withdrawn = 3,
}

/// <summary>A picture of a calculation. It shows what was worked out; nothing is judged by it.</summary>
/// <param name="Subject">What it belongs to.</param>
/// <param name="Name">What it shows: heat, air, column or test-shots, with a number where there are several.</param>
/// <param name="Svg">The picture as SVG, with a title and a description inside.</param>
public sealed record Picture(Subject Subject, string Name, string Svg);
