using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>The changes that were tried: below the finding that each clears, and for the plan as a whole.</summary>
internal static class RemedyEntries
{
    /// <summary>What was tried for a finding; nothing where no change that may be made clears it.</summary>
    public static IEnumerable<ReportDetail> Tried(Arrangement at, Finding finding)
    {
        if (at.Report.Remedies?.Tried.FirstOrDefault(tried => tried.Requirement == finding.Requirement && tried.Subject == finding.Subject) is not { } remedy)
        {
            yield break;
        }

        var others = remedy.Cleared.Where(cleared => cleared.Requirement != finding.Requirement || cleared.Subject != finding.Subject).ToImmutableArray();
        yield return new ReportDetail(at.Words["label-tried"], at.Words["tried", ("changes", string.Join(at.Words.Semicolon, remedy.Changes.Select(change => Change(at, change))))]);
        yield return new ReportDetail(at.Words["label-clears-too"], Named(at, others));
        yield return new ReportDetail(at.Words["label-brings"], Named(at, remedy.Brought));
        yield return new ReportDetail(at.Words["label-then"], Effects(at, remedy.Effects));
    }

    /// <summary>The changes that were tried together, and what is left to people; empty where nothing was tried.</summary>
    public static ReportSection Together(Arrangement at)
    {
        if (at.Report.Remedies?.WholePlan is not { } whole)
        {
            return new ReportSection("", []);
        }

        var disposition = at.Words[whole.Disposition switch
        {
            Disposition.Stop => "then-stop",
            Disposition.Hold => "then-hold",
            Disposition.ProceedWithCautions => "then-proceed-with-cautions",
            _ => "then-proceed",
        }];
        var changes = whole.Changes.IsEmpty ? [new ReportEntry(at.Words["tried-nothing"])] : whole.Changes.Select(change => new ReportEntry(Change(at, change)));
        ReportDetail[] came =
        [
            new(at.Words["label-clears"], Named(at, whole.Cleared)), new(at.Words["label-brings"], Named(at, whole.Brought)), new(at.Words["label-then"], Effects(at, whole.Effects)),
        ];
        var outcome = new ReportEntry(disposition, [.. came.Where(detail => detail.Text.Length > 0)]);
        var left = whole.Decisions.Select(decision => new ReportEntry(
            $"{at.Words.Of(decision.Subject)}{at.Words.Colon}{decision.Found} [{decision.Requirement}, {at.Words.Of(decision.Severity)}]", [.. NotMade(at, decision)])).ToList();
        IEnumerable<ReportEntry> decisions = left.Count == 0 ? [] : [new ReportEntry(at.Words.Counted("decisions", left.Count)), .. left];
        return new ReportSection(at.Words["tried-together"], [.. changes, outcome, .. decisions]) { Name = "tried-together" };
    }

    // What would clear it and is not made: whether it is worth what it brings is for people.
    private static IEnumerable<ReportDetail> NotMade(Arrangement at, PersonDecision decision) => decision.NotMade.IsEmpty ? [] :
    [
        new(at.Words["label-not-made"], string.Join(at.Words.Semicolon, decision.NotMade.Select(change => Change(at, change)))),
        new(at.Words["label-brings"], Named(at, decision.NotMadeBrings)),
    ];

    private static string Change(Arrangement at, FieldChange change) => at.Words[
        (change.Before, change.After) switch { (_, "") => "change-out", ("", _) => "change-in", _ => "change" },
        ("path", change.Path), ("before", change.Before), ("after", change.After)];

    private static string Named(Arrangement at, ImmutableArray<FindingNamed> findings) =>
        string.Join(at.Words.Semicolon, findings.Select(finding => $"{at.Words.Of(finding.Subject)} · {finding.Requirement} ({at.Words.Of(finding.Severity)})"));

    private static string Effects(Arrangement at, ImmutableArray<RemedyEffect> effects) => string.Join(at.Words.Semicolon, effects.Select(effect => at.Words[
        "effect", ("subject", at.Words.Of(effect.Subject)), ("what", effect.What),
        ("before", effect.Before.Length > 0 ? effect.Before : at.Words["none"]), ("after", effect.After.Length > 0 ? effect.After : at.Words["none"])]));
}
