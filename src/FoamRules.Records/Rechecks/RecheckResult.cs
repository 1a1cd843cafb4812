using System.Text.Json;
using System.Text.Json.Serialization;
using FoamRules.Model;
using FoamRules.Rules.Catalogue;

namespace FoamRules.Records.Rechecks;

/// <summary>A finding that today's rule sets bring, take away or change.</summary>
/// <param name="Requirement">The requirement's id.</param>
/// <param name="Subject">What it is judged on.</param>
/// <param name="Kind">How it differs.</param>
/// <param name="Was">Its severity then; null: there was none.</param>
/// <param name="Now">Its severity today; null: there is none.</param>
public sealed record RecheckedFinding(string Requirement, string Subject, DifferenceKind Kind, Severity? Was, Severity? Now);

/// <summary>A review whose newest plan comes out otherwise today.</summary>
/// <param name="ReviewId">The review.</param>
/// <param name="Was">The disposition as stored.</param>
/// <param name="Now">The disposition today; null: today's rule sets or this engine cannot judge the plan.</param>
/// <param name="WhyNot">Why it cannot be judged; empty where it can.</param>
/// <param name="Findings">The findings that differ.</param>
public sealed record RecheckedReview(string ReviewId, Disposition Was, Disposition? Now, string WhyNot, IReadOnlyList<RecheckedFinding> Findings)
{
    /// <summary>True where somebody must look: the disposition is worse, or cannot be told any more.</summary>
    [JsonIgnore]
    public bool IsWorse => Now is null || Now > Was;

    /// <summary>True where the disposition is milder.</summary>
    [JsonIgnore]
    public bool IsMilder => Now < Was;
}

/// <summary>What came out of a part; reviews that came out the same are only counted.</summary>
/// <param name="Reviews">How many were checked.</param>
/// <param name="Changed">Those that came out otherwise.</param>
public sealed record RecheckResult(int Reviews, IReadOnlyList<RecheckedReview> Changed)
{
    /// <summary>How results are written: names in small letters, words for enums.</summary>
    public static JsonSerializerOptions Json { get; } = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) } };

    /// <summary>As it is stored.</summary>
    public string ToJson() => JsonSerializer.Serialize(this, Json);

    /// <summary>From what is stored.</summary>
    public static RecheckResult FromJson(string json) => JsonSerializer.Deserialize<RecheckResult>(json, Json)!;
}
