using System.Collections.Immutable;
using FoamRules.Exchange;
using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.Remedies.Proposing;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Remedies;

/// <summary>
/// Finds what would put findings right, by trying: a change is proposed, made on a copy of the plan and checked. Only what whoever
/// plans may choose is changed, and nothing is offered that brings something as bad as it cures.
/// </summary>
/// <param name="engine">The engine.</param>
public sealed class RemedyFinder(CheckEngine engine)
{
    private const int MostTriesOfOne = 40, MostTries = 600;

    /// <summary>The report with what was found. At close-out the foam is there and nothing is a choice any more.</summary>
    /// <param name="read">The plan as read; it must be readable.</param>
    /// <param name="report">Its report.</param>
    /// <param name="options">What the caller asked besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public Report Find(PlanRead read, Report report, CheckOptions options, CancellationToken cancellation = default)
    {
        var start = new Trial(read.Message!, read.Plan!, report);
        var book = engine.BookFor(read.Plan!, options)!;
        var wording = engine.WordingOf(book, read.Plan!, options);
        var tryer = new Tryer(engine, options, MostTries, cancellation);
        var open = Open(report);
        var single = open.Select(finding => (Finding: finding, Step: Best(tryer, book, start, finding, null).Offered)).Where(pair => pair.Step is not null)
            .ToDictionary(pair => (pair.Finding.Requirement, pair.Finding.Subject), pair => pair.Step!);
        ImmutableArray<TriedRemedy> tried = [.. open.Where(finding => single.ContainsKey(KeyOf(finding))).Select(finding => Written(start, finding, single[KeyOf(finding)], wording))];
        return report with { Remedies = new RemedyReport(tried, Whole(tryer, book, wording, start, single)) };
    }

    /// <summary>What was found for a single finding; null where no change that may be made clears it.</summary>
    /// <param name="read">The plan as read; it must be readable.</param>
    /// <param name="report">Its report.</param>
    /// <param name="finding">A finding of that report.</param>
    /// <param name="options">What the caller asked besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public TriedRemedy? FindFor(PlanRead read, Report report, Finding finding, CheckOptions options, CancellationToken cancellation = default)
    {
        var start = new Trial(read.Message!, read.Plan!, report);
        var book = engine.BookFor(read.Plan!, options)!;
        return Open(report).Contains(finding) && Best(new Tryer(engine, options, MostTries, cancellation), book, start, finding, null).Offered is { } step
            ? Written(start, finding, step, engine.WordingOf(book, read.Plan!, options))
            : null;
    }

    private static List<Finding> Open(Report report) => report.Stage == Stage.CloseOut ? []
        : [.. report.Findings.Where(finding => finding is { Outcome: Outcome.NotMet, Severity: >= Severity.Caution })];

    // The first proposal that clears the finding and brings nothing to act on; else the first that clears it.
    private static (Step? Offered, Step? NotMade) Best(Tryer tryer, RuleBook book, Trial from, Finding finding, Step? known)
    {
        var (best, notMade) = ((Step?)null, (Step?)null);
        var situation = new Situation(from.Message, from.Plan, from.Report, book, finding, proposal => tryer.Try(from.Message, proposal.Edits)?.Report);
        var proposals = Proposers.For(finding.Requirement).SelectMany(proposer => proposer.Propose(situation)).Take(MostTriesOfOne).Select(proposal => Tryer.Whole(from.Message, proposal));
        foreach (var edits in proposals.Prepend(known?.Edits).OfType<IReadOnlyList<Edit>>())
        {
            if (tryer.Try(from.Message, edits) is not { } trial || new Comparison(from.Report, trial.Report) is not { } comparison)
            {
                continue;
            }

            if (!comparison.Clears(finding))
            {
                notMade ??= comparison.ClearsAtItsPrice(finding) ? new Step(edits, trial) : null;
                continue;
            }

            if (known is not null || comparison.Brought.All(brought => brought.Severity < Severity.HoldPoint))
            {
                return (new Step(edits, trial), null);
            }

            best ??= new Step(edits, trial);
        }

        return (best, notMade);
    }

    // Finding by finding, the worst first; each change is made on the plan as the changes before it left it.
    private static WholePlanRemedy Whole(Tryer tryer, RuleBook book, Wording wording, Trial start, Dictionary<(string, Subject), Step> single)
    {
        var (now, steps, given) = (start, new List<Step>(), new HashSet<(string, Subject)>());
        var notMade = new Dictionary<(string, Subject), Step>();
        while (Open(now.Report).Find(finding => !given.Contains(KeyOf(finding))) is { } next)
        {
            given.Add(KeyOf(next));
            switch (Best(tryer, book, now, next, single.GetValueOrDefault(KeyOf(next))))
            {
                case ({ } step, _):
                    steps.Add(step);
                    now = step.After;
                    break;
                case (null, { } price):
                    notMade[KeyOf(next)] = price;
                    break;
            }
        }

        (now, steps) = Fewest(tryer, start, now, steps);
        var comparison = new Comparison(start.Report, now.Report);
        return new WholePlanRemedy(
            now.Report.Disposition, Changes(start, now, steps.SelectMany(step => step.Edits), wording), comparison.Cleared, comparison.Brought, comparison.Effects(wording),
            [.. now.Report.Findings.Where(finding => finding.Severity >= Severity.HoldPoint).Select(finding => Decision(tryer, wording, now, finding, notMade.GetValueOrDefault(KeyOf(finding))))]);
    }

    // A change that is not made is tried again on the plan as the others left it: what it brings there is what is said.
    private static PersonDecision Decision(Tryer tryer, Wording wording, Trial now, Finding finding, Step? notMade)
    {
        var again = notMade is null ? null : tryer.Try(now.Message, notMade.Edits);
        var comparison = again is null ? null : new Comparison(now.Report, again.Report);
        var (changes, brings) = comparison?.ClearsAtItsPrice(finding) is true ? (Changes(now, again!, notMade!.Edits, wording), comparison.Brought) : ([], []);
        return new PersonDecision(finding.Requirement, finding.Subject, finding.Severity, finding.Found, finding.Remedy, finding.ReleaseRoles, changes, brings);
    }

    // A later change can make an earlier one needless: what can be left out is left out.
    private static (Trial, List<Step>) Fewest(Tryer tryer, Trial start, Trial now, List<Step> steps)
    {
        for (var i = steps.Count - 2; i >= 0; i--)
        {
            List<Step> fewer = [.. steps[..i], .. steps[(i + 1)..]];
            if (tryer.Try(start.Message, [.. fewer.SelectMany(step => step.Edits)]) is { } trial && trial.Report.Complete == now.Report.Complete
                && new Comparison(now.Report, trial.Report).Brought.IsEmpty)
            {
                (now, steps) = (trial, fewer);
            }
        }

        return (now, steps);
    }

    private static TriedRemedy Written(Trial start, Finding finding, Step step, Wording wording)
    {
        var comparison = new Comparison(start.Report, step.After.Report);
        return new TriedRemedy(finding.Requirement, finding.Subject, Changes(start, step.After, step.Edits, wording), comparison.Cleared, comparison.Brought, comparison.Effects(wording));
    }

    private static ImmutableArray<FieldChange> Changes(Trial before, Trial after, IEnumerable<Edit> edits, Wording wording)
    {
        var paths = edits.Select(edit => edit.Path).Distinct().ToList();
        // A field below another that is written whole is written with it.
        return [.. paths.Where(path => !paths.Exists(other => path.StartsWith(other + ".", StringComparison.Ordinal) || path.StartsWith(other + "[", StringComparison.Ordinal)))
            .Select(path => Change(before, after, path, wording)).OfType<FieldChange>()];
    }

    private static FieldChange? Change(Trial before, Trial after, string path, Wording wording)
    {
        var (old, now) = (PlanSpot.Find(before.Message, path)?.Value, PlanSpot.Find(after.Message, path)!);
        return Equals(old, now.Value) ? null
            : new FieldChange(path, Shown(old), Shown(now.Value), PlanSpot.MeasureOf(old), PlanSpot.MeasureOf(now.Value), now.Write(now.Value));

        string Shown(object? value) => value is Timestamp at
            ? wording.Show(at.ToDateTimeOffset(), before.Plan.TimeZone)
            : now.Show(value, wording.Units, wording.Style, wording.Word);
    }

    private static (string, Subject) KeyOf(Finding finding) => (finding.Requirement, finding.Subject);

    /// <summary>A change that was made, with all that falls with it.</summary>
    private sealed record Step(IReadOnlyList<Edit> Edits, Trial After);
}
