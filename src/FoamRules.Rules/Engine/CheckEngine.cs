using System.Collections.Concurrent;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>What the caller asks besides the plan itself.</summary>
/// <param name="PlanDigest">SHA-256 of the plan as read, to be repeated in the report.</param>
/// <param name="RuleSets">Rule sets to judge by besides those that the plan names.</param>
/// <param name="Units">The units of the report's sentences; null: by the plan's country.</param>
/// <param name="Pictures">Draw the calculations, too.</param>
public sealed record CheckOptions(string PlanDigest = "", IReadOnlyList<string>? RuleSets = null, DisplayUnits? Units = null, bool Pictures = false);

/// <summary>A report, or why the plan could not be judged.</summary>
/// <param name="Report">The report; null where there are violations.</param>
/// <param name="Violations">What is wrong with the request, such as a rule set that nobody knows.</param>
public sealed record CheckResult(Report? Report, IReadOnlyList<Violation> Violations);

/// <summary>Judges plans. One engine serves a process; it can be used by many callers at once.</summary>
public sealed class CheckEngine
{
    private readonly ConcurrentDictionary<string, Lazy<RuleNetwork>> _networks = new(StringComparer.Ordinal);

    /// <summary>An engine over a library of rule sets.</summary>
    /// <param name="library">The rule sets.</param>
    public CheckEngine(RuleLibrary library) => Library = library;

    /// <summary>The rule sets.</summary>
    public RuleLibrary Library { get; }

    /// <summary>Judges a plan.</summary>
    /// <param name="plan">The plan as read.</param>
    /// <param name="options">What the caller asks besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public CheckResult Check(Plan plan, CheckOptions options, CancellationToken cancellation = default)
    {
        var named = plan.RuleSets.Concat(options.RuleSets ?? []);
        if (Library.BookFor(plan.Jurisdiction?.Country, named, out var unknown) is not { } book)
        {
            return new CheckResult(null, [.. unknown.Select(name =>
                new Violation("rule_sets", $"the unknown rule set `{name}`", string.Join(", ", Library.RuleSets.Keys), "name a rule set that is there"))]);
        }

        return new CheckResult(Check(plan, book, options, cancellation), []);
    }

    /// <summary>Judges a plan by a rule book, whatever rule sets the plan names.</summary>
    /// <param name="plan">The plan as read.</param>
    /// <param name="book">The rule book, from this engine's library.</param>
    /// <param name="options">What the caller asks besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public Report Check(Plan plan, RuleBook book, CheckOptions options, CancellationToken cancellation = default)
    {
        var network = NetworkFor(book);
        var job = new JobFacts(plan);
        var (hazards, assessments) = network.Run(job, cancellation);
        var units = options.Units ?? (plan.Jurisdiction?.Country == "US" ? DisplayUnits.Us : DisplayUnits.Si);
        var report = new ReportBuilder(network, job, units).Build(hazards, assessments, options.PlanDigest);
        return options.Pictures ? report with { Pictures = new ReportPictures(network, job, units).All() } : report;
    }

    /// <summary>Compiles the rules that plans get without asking, so that the first caller does not wait for it.</summary>
    /// <exception cref="Judging.RuleSetMismatchException">The rule sets and the requirements do not fit each other.</exception>
    public void WarmUp()
    {
        foreach (var country in Library.RuleSets.Values.Select(set => set.Country).Append(null).Distinct())
        {
            _ = NetworkFor(Library.BookFor(country, [], out _)!);
        }
    }

    /// <summary>
    /// Compiles more than plans get without asking: the rules of each rule set with those below it, so that what does not fit shows
    /// before anyone asks, and the combinations that an engine before this one was asked for.
    /// </summary>
    /// <param name="predecessor">The engine that this one is to replace.</param>
    /// <exception cref="Judging.RuleSetMismatchException">The rule sets and the requirements do not fit each other.</exception>
    public void WarmUpLike(CheckEngine predecessor)
    {
        WordsKept.Check(predecessor.Library, Library);
        WarmUp();
        var asked = predecessor._networks.Keys.Select(key => key.Split('+')).Where(ids => ids.All(Library.RuleSets.ContainsKey));
        foreach (var names in Library.RuleSets.Keys.Select(id => new[] { id }).Concat(asked))
        {
            _ = NetworkFor(Library.BookFor(null, names, out _)!);
        }
    }

    /// <summary>The compiled rules for a rule book; compiled once.</summary>
    public RuleNetwork NetworkFor(RuleBook book) =>
        _networks.GetOrAdd(book.Key, _ => new Lazy<RuleNetwork>(() => new RuleNetwork(book))).Value;
}
