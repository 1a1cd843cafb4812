using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Remedies;

/// <summary>Two reports of one plan: before a change and after it.</summary>
internal sealed class Comparison
{
    private readonly Dictionary<(string, Subject), Judgement> _after;

    public Comparison(Report before, Report after)
    {
        _after = after.Judgements.ToDictionary(judgement => (judgement.Requirement, judgement.Subject));
        var known = before.Findings.ToDictionary(KeyOf, finding => finding.Severity);
        Cleared = [.. before.Findings.Where(finding => finding.Outcome == Outcome.NotMet && IsMet(finding)).Select(Named)];
        Brought = [.. after.Findings.Where(finding => !known.TryGetValue(KeyOf(finding), out var severity) || severity < finding.Severity).Select(Named)];
        // What was known to be wrong and is now not known is no cure.
        Hidden = before.Findings.Any(finding => finding is { Outcome: Outcome.NotMet, Severity: >= Severity.Caution }
            && OutcomeAfter(finding) is Outcome.Undetermined or Outcome.Faulted);
        Effects = [.. EffectsOf(before, after)];
        Complete = after.Complete || !before.Complete;
    }

    /// <summary>Findings that were not met and are met.</summary>
    public ImmutableArray<FindingNamed> Cleared { get; }

    /// <summary>Findings that are new, or worse than they were.</summary>
    public ImmutableArray<FindingNamed> Brought { get; }

    /// <summary>What it does to numbers and times.</summary>
    public ImmutableArray<RemedyEffect> Effects { get; }

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

    private static IEnumerable<RemedyEffect> EffectsOf(Report before, Report after)
    {
        var numbers = Changed(before.Numbers, after.Numbers, number => (number.Subject, number.Name), number => Show(number, before.Units));
        var times = Changed(before.Schedule, after.Schedule, entry => (entry.Subject, entry.What), entry => entry.LocalTime);
        return numbers.Concat(times);
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

    private static string Show(Number number, DisplayUnits units) => (number.Aim, number.Low, number.High) switch
    {
        ({ } aim, _, _) => MeasureText.Show(aim, units),
        (_, { } low, { } high) => $"{MeasureText.Show(low, units)} to {MeasureText.Show(high, units)}",
        (_, { } low, _) => $"not below {MeasureText.Show(low, units)}",
        (_, _, { } high) => $"not above {MeasureText.Show(high, units)}",
        _ => number.Note,
    };
}
