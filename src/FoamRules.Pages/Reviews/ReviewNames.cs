using FoamRules.Contracts.V1;
using FoamRules.Pages.Site;

namespace FoamRules.Pages.Reviews;

/// <summary>How pages name what stands on record.</summary>
internal static class ReviewNames
{
    /// <summary>The sign of a review.</summary>
    public static string SignOf(ReviewSummary review) =>
        review.OpenStops > 0 || review.Disposition == Disposition.Stop ? "stop" : review.OpenHolds > 0 ? "hold" : review.SignedRevision == review.Revision ? "proceed" : "note";

    /// <summary>Where a review stands, in a sentence.</summary>
    public static string StateOf(ReviewSummary review, PageWords words) => words[
        review.ClosedOut ? "state-closed"
        : review.SignedRevision == 0 ? "state-unsigned"
        : review.SignedRevision < review.Revision ? "state-newer"
        : "state-signed", ("revision", $"{review.Revision}"), ("signed", $"{review.SignedRevision}")];

    /// <summary>Who did something, when, and how sure that is.</summary>
    public static string By(Receipt receipt, string? timeZone, PageWords words) => words[
        receipt.Identity == Identity.Stated ? "by-stated" : "by-proven",
        ("who", receipt.Actor), ("role", words[$"role-{WhoCalls.WordOf(receipt.Role)}"]), ("at", SiteTime.Show(receipt.At.ToDateTimeOffset(), timeZone)), ("zone", SiteTime.Zone(timeZone))];

    /// <summary>An act.</summary>
    public static string Of(ActKind kind, PageWords words) => words[$"act-{Facts.Fact.NamesOf(Receipt.Descriptor.FindFieldByName("kind").EnumType).FirstOrDefault(name => name.Number == (int)kind).Name}"];

    /// <summary>A role in which something is released; a house's own has no words here.</summary>
    public static string RoleOf(string role, PageWords words) => words.Texts.TryGetValue($"release-role-{role.Replace(' ', '-')}", out var name) ? name : role;

    /// <summary>The time zone of a plan; null: it is not known.</summary>
    public static string? ZoneOf(Plan plan) => plan.TimeZone.Length == 0 ? null : plan.TimeZone;
}
