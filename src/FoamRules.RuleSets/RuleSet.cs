using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets;

/// <summary>A versioned set of limits, severities, texts and sources, as read from one folder.</summary>
public sealed record RuleSet
{
    /// <summary>Its id, the folder's name.</summary>
    public required string Id { get; init; }

    /// <summary>What it says of itself.</summary>
    public required RuleSetHead Head { get; init; }

    /// <summary>What people call it.</summary>
    public string Title => Head.Title;

    /// <summary>Its version.</summary>
    public string Version => Head.Version;

    /// <summary>Where it stands among the layers.</summary>
    public Level Level => Head.Level;

    /// <summary>The rule set whose limits it may only tighten; null for general practice.</summary>
    public string? Above => Head.Above;

    /// <summary>Its sources by id.</summary>
    public required ImmutableSortedDictionary<string, Source> Sources { get; init; }

    /// <summary>What it says of requirements, by id.</summary>
    public required ImmutableSortedDictionary<string, RequirementEntry> Requirements { get; init; }

    /// <summary>Values that several requirements share, such as a mixing factor.</summary>
    public required ImmutableSortedDictionary<string, Limit> Parameters { get; init; }

    /// <summary>The hazards by id, with their texts.</summary>
    public required ImmutableSortedDictionary<string, HazardEntry> Hazards { get; init; }

    /// <summary>Texts that stand on every report, by key.</summary>
    public required ImmutableSortedDictionary<string, string> Texts { get; init; }

    /// <summary>Its words in other languages, by language.</summary>
    public ImmutableSortedDictionary<string, Translation> Translations { get; init; } = ImmutableSortedDictionary<string, Translation>.Empty;

    /// <summary>What must be in the price, in the order in which it is listed.</summary>
    public ImmutableArray<PriceEntry> Prices { get; init; } = [];

    /// <summary>The question for each field that may be missing, by the field's path without ids and indexes.</summary>
    public ImmutableSortedDictionary<string, string> Questions { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>The files that it was read from, so that whoever keeps reports can keep what they rest on.</summary>
    public required RuleSetFiles Files { get; init; }

    /// <summary>SHA-256 of its files, its translations among them, in hexadecimal.</summary>
    public string Digest => Files.Digest;
}

/// <summary>Where a rule set stands among the layers; the later ones may only tighten the earlier ones.</summary>
public enum Level
{
    /// <summary>What the trade does everywhere.</summary>
    GeneralPractice = 1,

    /// <summary>A country's law and model codes.</summary>
    Country = 2,

    /// <summary>A region or an edition of a code.</summary>
    Region = 3,

    /// <summary>A local authority.</summary>
    LocalAuthority = 4,

    /// <summary>A company.</summary>
    Company = 5,

    /// <summary>A project.</summary>
    Project = 6,
}

/// <summary>A source: a document, or the plain statement that there is none.</summary>
/// <param name="Id">Its id in the rule set.</param>
/// <param name="Citation">Document, edition and section.</param>
/// <param name="Status">How it is known.</param>
/// <param name="Layer">The rule set that names it.</param>
public sealed record Source(string Id, string Citation, SourceStatus Status, string Layer)
{
    /// <summary>The citation as words that each language can say, where the engine has made it; null for a document's own name.</summary>
    public Phrase? Named { get; init; }

    /// <summary>True where nobody read a text for it: practice or memory alone.</summary>
    public bool IsWeak => Status is SourceStatus.CommonPractice or SourceStatus.FromMemory;
}

/// <summary>Severities at the four stages; null: not judged at that stage.</summary>
/// <param name="Quote">At quote.</param>
/// <param name="Plan">At plan.</param>
/// <param name="PreStart">At pre-start.</param>
/// <param name="CloseOut">At close-out.</param>
public sealed record Severities(Severity? Quote, Severity? Plan, Severity? PreStart, Severity? CloseOut)
{
    /// <summary>No severity at any stage.</summary>
    public static Severities None { get; } = new(null, null, null, null);

    /// <summary>The severity at a stage.</summary>
    public Severity? At(Stage stage) => stage switch
    {
        Stage.Quote => Quote,
        Stage.Plan => Plan,
        Stage.PreStart => PreStart,
        Stage.CloseOut => CloseOut,
        _ => throw new ArgumentOutOfRangeException(nameof(stage), stage, "a stage of the contract"),
    };
}

/// <summary>What one rule set says of one requirement. A layer may say only a part; what it leaves out stands as below.</summary>
public sealed record RequirementEntry
{
    /// <summary>The requirement's id, such as <c>vent.air-can-leave</c>.</summary>
    public required string Id { get; init; }

    /// <summary>What must hold, in a sentence; null: as below.</summary>
    public string? Must { get; init; }

    /// <summary>Severities when it is not met; null: as below.</summary>
    public Severities? NotMet { get; init; }

    /// <summary>Severities when an input is missing; null: as below.</summary>
    public Severities? Missing { get; init; }

    /// <summary>Roles that may release a hold; null: as below.</summary>
    public ImmutableArray<string>? Release { get; init; }

    /// <summary>The role that flagged the row as imminent danger, so that weak sources do not cap it; null: not flagged here.</summary>
    public string? ImminentSetBy { get; init; }

    /// <summary>Sources of the requirement as a whole.</summary>
    public ImmutableArray<Source> Sources { get; init; } = [];

    /// <summary>Limits by name.</summary>
    public ImmutableSortedDictionary<string, Limit> Limits { get; init; } = ImmutableSortedDictionary<string, Limit>.Empty;

    /// <summary>Limits of other requirements that it is judged by too, such as <c>fire.roof-exception-fits</c> or a group of it.</summary>
    public ImmutableArray<string> LimitsOf { get; init; } = [];

    /// <summary>Tiers by name: other severities and sources for a worse or a lighter break.</summary>
    public ImmutableSortedDictionary<string, Tier> Tiers { get; init; } = ImmutableSortedDictionary<string, Tier>.Empty;

    /// <summary>What is said of the outcome, by key, with placeholders in braces.</summary>
    public ImmutableSortedDictionary<string, string> Says { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>Why it does not apply, by key.</summary>
    public ImmutableSortedDictionary<string, string> NotApplicable { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>What would put it right, by the key of what is said; the empty key for all.</summary>
    public ImmutableSortedDictionary<string, string> Remedies { get; init; } = ImmutableSortedDictionary<string, string>.Empty;

    /// <summary>The caution that stands on it; null: as below.</summary>
    public string? Caution { get; init; }

    /// <summary>An example for the requirement's page; null: none.</summary>
    public string? Example { get; init; }

    /// <summary>The authority by which this layer relaxes the requirement's severities; null: it does not.</summary>
    public string? RelaxedBy { get; init; }

    /// <summary>How it is judged, where the rule set says so itself; null: as below, or by a class.</summary>
    public DeclaredRule? Declared { get; init; }

    /// <summary>Where the entry stands, for messages.</summary>
    public required Violation Place { get; init; }
}

/// <summary>Other severities and sources for a worse or a lighter break of the same requirement.</summary>
/// <param name="NotMet">Severities when it is not met.</param>
/// <param name="Missing">Severities when it cannot be judged; null: the requirement's own.</param>
/// <param name="Sources">Its sources; empty: the requirement's own.</param>
/// <param name="Layers">The rule sets that state it, the lowest first.</param>
public sealed record Tier(Severities NotMet, Severities? Missing, ImmutableArray<Source> Sources, ImmutableArray<string> Layers);

/// <summary>The texts of a hazard.</summary>
/// <param name="Id">Its id, such as <c>trapped-air</c>.</param>
/// <param name="Name">What people call it.</param>
/// <param name="Because">Why it is there.</param>
/// <param name="Absent">Why it is not there, where it is not.</param>
public sealed record HazardEntry(string Id, string Name, string Because, string Absent);
