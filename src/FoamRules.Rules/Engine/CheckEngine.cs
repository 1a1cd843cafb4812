using System.Collections.Concurrent;
using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>What the caller asks besides the plan itself.</summary>
/// <param name="PlanDigest">SHA-256 of the plan as read, to be repeated in the report.</param>
/// <param name="RuleSets">Rule sets to judge by besides those that the plan names.</param>
/// <param name="Units">The units of the report's sentences; null: by the plan's country.</param>
/// <param name="Pictures">Draw the calculations, too.</param>
/// <param name="Language">The language of the report's sentences, a tag by BCP 47 such as es or fr-CA; null or empty: English.</param>
/// <param name="Purpose">Why it is asked, for those who count.</param>
public sealed record CheckOptions(string PlanDigest = "", IReadOnlyList<string>? RuleSets = null, DisplayUnits? Units = null, bool Pictures = false, string? Language = null, CheckPurpose Purpose = CheckPurpose.Answer);

/// <summary>A report, or why the plan could not be judged.</summary>
/// <param name="Report">The report; null where there are violations.</param>
/// <param name="Violations">What is wrong with the request, such as a rule set that nobody knows or that is not in force.</param>
public sealed record CheckResult(Report? Report, IReadOnlyList<Violation> Violations);

/// <summary>Judges plans. One engine serves a process; it can be used by many callers at once.</summary>
public sealed class CheckEngine
{
    private const int MostNetworks = 64;
    private readonly ConcurrentDictionary<string, Lazy<RuleNetwork>> _networks = new(StringComparer.Ordinal);
    private readonly Lazy<bool> _warm;

    /// <summary>An engine over a library of rule sets.</summary>
    /// <param name="library">The rule sets.</param>
    public CheckEngine(RuleLibrary library)
    {
        Library = library;
        _warm = new Lazy<bool>(Compile);
    }

    /// <summary>The engine's version, as its reports bear it.</summary>
    public static string Version => ReportBuilder.Version;

    /// <summary>The rule sets.</summary>
    public RuleLibrary Library { get; }

    /// <summary>Judges a plan.</summary>
    /// <param name="plan">The plan as read.</param>
    /// <param name="options">What the caller asks besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public CheckResult Check(Plan plan, CheckOptions options, CancellationToken cancellation = default) =>
        CheckTelemetry.Watch(plan, options, () => Judge(plan, options, cancellation));

    private CheckResult Judge(Plan plan, CheckOptions options, CancellationToken cancellation)
    {
        var choice = ChoiceFor(plan, options);
        ImmutableArray<Violation> violations = [.. choice.Violations, .. LanguageChoice.Of(options.Language, Library).Violations];
        if (violations.Length > 0)
        {
            return new CheckResult(null, violations);
        }

        return new CheckResult(Judge(plan, choice, options, cancellation), []);
    }

    /// <summary>Judges a plan by a rule book, whatever rule sets the plan names.</summary>
    /// <param name="plan">The plan as read.</param>
    /// <param name="book">The rule book, from this engine's library.</param>
    /// <param name="options">What the caller asks besides.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public Report Check(Plan plan, RuleBook book, CheckOptions options, CancellationToken cancellation = default) =>
        Judge(plan, new RuleSetChoice(book.Layers, [], []), options, cancellation);

    private Report Judge(Plan plan, RuleSetChoice choice, CheckOptions options, CancellationToken cancellation)
    {
        var network = NetworkFor(choice);
        var job = new JobFacts(plan);
        var (hazards, assessments) = network.Run(job, cancellation);
        var wording = WordingOf(network.Book, plan, options);
        var report = new ReportBuilder(network, job, wording, choice.Notes).Build(hazards, assessments, options.PlanDigest);
        return options.Pictures ? report with { Pictures = new ReportPictures(network, job, wording).All() } : report;
    }

    /// <summary>How the report on a plan speaks. The rules are compiled once; a language brings other words to what they have found.</summary>
    /// <param name="book">The rule sets that the plan is judged by.</param>
    /// <param name="plan">The plan as read.</param>
    /// <param name="options">What the caller asks besides.</param>
    public Wording WordingOf(RuleBook book, Plan plan, CheckOptions options)
    {
        var units = options.Units ?? (plan.Jurisdiction?.Country == "US" ? DisplayUnits.Us : DisplayUnits.Si);
        var language = LanguageChoice.Of(options.Language, Library);
        return new Wording(book.In(language.Language), units, language.Region ?? plan.Jurisdiction?.Country);
    }

    /// <summary>The rule sets that a plan is judged by, layered; null where they could not be chosen.</summary>
    /// <param name="plan">The plan as read.</param>
    /// <param name="options">What the caller asks besides.</param>
    public RuleBook? BookFor(Plan plan, CheckOptions options) => ChoiceFor(plan, options) is { Violations.Length: 0 } choice ? NetworkFor(choice).Book : null;

    private RuleSetChoice ChoiceFor(Plan plan, CheckOptions options) =>
        Library.Choose(new RuleSetQuestion(plan.Jurisdiction?.Country, plan.Jurisdiction?.Region, plan.WorkDate, [.. plan.RuleSets, .. options.RuleSets ?? []]));

    /// <summary>Compiles the rules that plans get without asking, so that the first caller does not wait for it. Once: it can be called at every probe.</summary>
    /// <exception cref="Judging.RuleSetMismatchException">The rule sets and the requirements do not fit each other.</exception>
    public void WarmUp() => _ = _warm.Value;

    /// <summary>Compiles what plans get without asking, and the combinations that an engine before this one was asked for.</summary>
    /// <param name="predecessor">The engine that this one is to replace.</param>
    /// <exception cref="Judging.RuleSetMismatchException">The rule sets and the requirements do not fit each other.</exception>
    public void WarmUpLike(CheckEngine predecessor)
    {
        WordsKept.Check(predecessor.Library, Library);
        WarmUp();
        foreach (var ids in predecessor._networks.Keys.Select(key => key.Split('+')).Where(ids => ids.All(Library.RuleSets.ContainsKey)))
        {
            _ = NetworkFor(new RuleSetChoice([.. ids.Select(id => Library.RuleSets[id])], [], []));
        }
    }

    /// <summary>The compiled rules for a choice of rule sets; compiled once.</summary>
    public RuleNetwork NetworkFor(RuleSetChoice choice)
    {
        // Callers can name rule sets as they like; what they named long ago is compiled again rather than kept for good.
        if (_networks.Count >= MostNetworks && !_networks.ContainsKey(choice.Key))
        {
            _networks.Clear();
        }

        return _networks.GetOrAdd(choice.Key, _ => new Lazy<RuleNetwork>(() => new RuleNetwork(RuleBook.Build(choice.Layers)))).Value;
    }

    private bool Compile()
    {
        // All rule sets together show whether each fits the requirements, whatever a plan names later. Beside the others: a service waits for both.
        var everything = Task.Run(() => new RuleNetwork(Library.Everything()));
        foreach (var country in Library.RuleSets.Values.SelectMany(set => set.Head.Countries).Distinct())
        {
            // A region that no rule set names: what most plans of the country get.
            _ = NetworkFor(Library.Choose(new RuleSetQuestion(country, "", null, [])));
        }

        _ = everything.GetAwaiter().GetResult();
        return true;
    }
}
