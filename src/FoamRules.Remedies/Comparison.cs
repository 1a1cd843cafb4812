using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Remedies;

/// <summary>Two reports of one plan: before a change and after it.</summary>
internal sealed class Comparison
{
    private readonly Dictionary<(string, Subject), Judgement> _after;
    private readonly Report _beforeReport, _afterReport;

    public Comparison(Report before, Report after)
    {
        (_beforeReport, _afterReport) = (before, after);
        _after = after.Judgements.ToDictionary(judgement => (judgement.Requirement, judgement.Subject));
        var known = before.Findings.ToDictionary(KeyOf, finding => finding.Severity);
        Cleared = [.. before.Findings.Where(finding => finding.Outcome == Outcome.NotMet && IsMet(finding)).Select(Named)];
        Brought = [.. after.Findings.Where(finding => !known.TryGetValue(KeyOf(finding), out var severity) || severity < finding.Severity).Select(Named)];
        // What was known to be wrong and is now not known is no cure.
        Hidden = before.Findings.Any(finding => finding is { Outcome: Outcome.NotMet, Severity: >= Severity.Caution }
            && OutcomeAfter(finding) is Outcome.Undetermined or Outcome.Faulted);
        Complete = after.Complete || !before.Complete;
    }

    /// <summary>Findings that were not met and are met.</summary>
    public ImmutableArray<FindingNamed> Cleared { get; }

    /// <summary>Findings that are new, or worse than they were.</summary>
    public ImmutableArray<FindingNamed> Brought { get; }

    private bool Hidden { get; }

    private bool Complete { get; }

    /// <summary>True where the finding is met and nothing as bad has come.</summary>
    public bool Clears(Finding finding) => IsMet(finding) && !Hidden && Complete && Brought.All(brought => brought.Severity < finding.Severity);

    /// <summary>True where the finding is met and what has come is as bad, and not worse: whether it is worth that is for people.</summary>
    public bool ClearsAtItsPrice(Finding finding) =>
        finding.Severity < Severity.StopWork && IsMet(finding) && !Hidden && Complete && Brought.Any(brought => brought.Severity == finding.Severity) && Brought.All(brought => brought.Severity <= finding.Severity);

    /// <summary>A finding's name.</summary>
    public static FindingNamed Named(Finding finding) => new(finding.Requirement, finding.Subject, finding.Severity, finding.Found);

    private bool IsMet(Finding finding) => OutcomeAfter(finding) == Outcome.Met;

    private Outcome? OutcomeAfter(Finding finding) => _after.GetValueOrDefault(KeyOf(finding))?.Outcome;

    private static (string, Subject) KeyOf(Finding finding) => (finding.Requirement, finding.Subject);

    /// <summary>What it does to numbers and times, in the report's words.</summary>
    public ImmutableArray<RemedyEffect> Effects(Wording wording)
    {
        var numbers = Changed(_beforeReport.Numbers, _afterReport.Numbers, number => (number.Subject, number.Name), number => Show(number, wording));
        var times = Changed(_beforeReport.Schedule, _afterReport.Schedule, entry => (entry.Subject, entry.What), entry => entry.LocalTime);
        return [.. numbers.Concat(times)];
    }

    private static IEnumerable<RemedyEffect> Changed<T>(IEnumerable<T> before, IEnumerable<T> after, Func<T, (Subject Subject, string What)> key, Func<T, string> show)
    {
        var (old, now) = (before.ToLookup(key, show), after.ToLookup(key, show));
        return from what in old.Select(one => one.Key).Union(now.Select(one => one.Key))
               let was = string.Join(", ", old[what])
               let isNow = string.Join(", ", now[what])
               where was != isNow
               select new RemedyEffect(what.Subject, what.What, was, isNow);
    }

    // Rounded to the safe side, as the numbers themselves are shown.
    private static string Show(Number number, Wording wording) => (number.Aim, number.Low, number.High) switch
    {
        ({ } aim, _, _) => wording.Show(aim.Quantity is UnitsNet.Mass ? SafeSide.AtLeast(aim) : aim),
        (_, { } low, { } high) => wording.Text("range", ("low", Least(low, wording)), ("high", Most(high, wording))),
        (_, { } low, _) => wording.Text("reading-range-from", ("low", Least(low, wording))),
        (_, _, { } high) => wording.Text("reading-range-to", ("high", Most(high, wording))),
        _ => number.Note,
    };

    private static string Least(Measure low, Wording wording) => wording.Show(SafeSide.AtLeast(low));

    private static string Most(Measure high, Wording wording) => wording.Show(SafeSide.AtMost(high));
}
