using System.Collections.Immutable;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using NRules;
using NRules.Extensibility;
using NRules.Fluent;
using NRules.Fluent.Dsl;

namespace FoamRules.Rules.Engine;

/// <summary>The rule base compiled for one rule book. It holds no state of a check and can serve many at once.</summary>
public sealed class RuleNetwork
{
    private readonly ISessionFactory _factory;

    /// <summary>Compiles a rule book.</summary>
    /// <param name="book">The rule book.</param>
    /// <param name="only">The ids to load; null: all. For tests that judge by one requirement alone.</param>
    /// <exception cref="RuleSetMismatchException">The rule sets and the requirements do not fit each other.</exception>
    public RuleNetwork(RuleBook book, IReadOnlySet<string>? only = null)
    {
        Book = book;
        Hazards = HazardRules.Create();
        Numbers = new NumberRules(book);
        Prices = new PriceRules(book);
        Requirements = [.. CreateRequirements(book, Hazards).Where(requirement => only is null || only.Contains(requirement.Spec.Id))];
        foreach (var requirement in Requirements.Where(requirement => !Hazards.Any(hazard => CanRaise(hazard, requirement))))
        {
            throw new RuleSetMismatchException(requirement.Spec.Id, $"no hazard rule raises {requirement.Answers} on {requirement.BearerType.Name}, so it would never be asked");
        }

        foreach (var kind in Enum.GetValues<HazardKind>())
        {
            _ = HazardTexts.Of(book, kind);
        }

        var rules = Hazards.Cast<Rule>().Concat(Requirements.Cast<Rule>()).ToList();
        // No cancellation token: a compilation that is cancelled returns a network with some of the rules.
        _factory = new RuleCompiler { ExpressionCompiler = new TieredExpressionCompiler() }.Compile(new RuleDefinitionFactory().Create(rules));
        if (_factory.GetSchema().Nodes.Count(node => node.NodeType == NRules.Diagnostics.NodeType.Rule) is var compiled && compiled != rules.Count)
        {
            throw new RuleSetMismatchException("all", $"{compiled} of {rules.Count} rules were compiled");
        }
    }

    /// <summary>The rule book.</summary>
    public RuleBook Book { get; }

    /// <summary>What today's numbers take from the rule book.</summary>
    internal NumberRules Numbers { get; }

    /// <summary>The lines of the price list.</summary>
    internal PriceRules Prices { get; }

    /// <summary>The hazard rules.</summary>
    public ImmutableArray<IHazardRule> Hazards { get; }

    /// <summary>The requirements, by id.</summary>
    public ImmutableArray<IRequirement> Requirements { get; }

    /// <summary>Judges a job.</summary>
    /// <param name="job">The job's facts.</param>
    /// <param name="cancellation">Looked at before and after judging; the rule engine itself does not stop in the middle.</param>
    /// <returns>The hazards found and the assessments made, in no particular order.</returns>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public (IReadOnlyList<IHazard<Bearer>> Hazards, IReadOnlyList<Assessment> Assessments) Run(JobFacts job, CancellationToken cancellation)
    {
        cancellation.ThrowIfCancellationRequested();
        var collector = new AssessmentCollector();
        var session = _factory.CreateSession();
        session.DependencyResolver = new OneDependency(collector);
        var facts = job.All;
        session.InsertAll(facts);
        cancellation.ThrowIfCancellationRequested();
        // Every rule can fire at most once a fact; more means a rule that feeds itself.
        var most = (Hazards.Length + Requirements.Length) * facts.Count;
        var fired = session.Fire(most + 1, CancellationToken.None);
        if (fired > most)
        {
            throw new InvalidOperationException("the rules did not come to rest");
        }

        cancellation.ThrowIfCancellationRequested();
        return ([.. session.Query<IHazard<Bearer>>()], collector.All);
    }

    private static bool CanRaise(IHazardRule hazard, IRequirement requirement) =>
        hazard.Kind == requirement.Answers
        && (requirement.BearerType.IsAssignableFrom(hazard.BearerType) || hazard.BearerType.IsAssignableFrom(requirement.BearerType));

    private static IEnumerable<IRequirement> CreateRequirements(RuleBook book, ImmutableArray<IHazardRule> hazards)
    {
        var declared = book.Requirements.Values.Where(spec => spec.Declared is not null).ToList();
        var twice = declared.Where(spec => AllRequirements.Makers.ContainsKey(spec.Id)).ToList();
        if (twice.Count > 0)
        {
            throw new RuleSetMismatchException("all", $"both a class and a rule set say how these are judged: {string.Join(", ", twice.Select(spec => $"{spec.Id} ({spec.Declared!.Met.File})"))}");
        }

        var unknown = book.Requirements.Values.Where(spec => spec.Declared is null).Select(spec => spec.Id).Where(id => !AllRequirements.Makers.ContainsKey(id)).ToList();
        var unstated = AllRequirements.Makers.Keys.Where(id => !book.Requirements.ContainsKey(id)).ToList();
        if (unknown.Count + unstated.Count > 0)
        {
            throw new RuleSetMismatchException("all", $"rule sets state what no rule judges: {string.Join(", ", unknown)}; rules judge what no rule set states: {string.Join(", ", unstated)}");
        }

        var problems = new List<string>();
        var made = new List<IRequirement>();
        foreach (var (id, make) in AllRequirements.Makers)
        {
            Try(id, () => make(book.Requirements[id]));
        }

        foreach (var spec in declared)
        {
            Try(spec.Id, () => DeclaredRequirements.Make(spec, hazards));
        }

        return problems.Count == 0 ? made.OrderBy(requirement => requirement.Spec.Id, StringComparer.Ordinal) : throw new RuleSetMismatchException("all", string.Join("; ", problems));

        void Try(string id, Func<IRequirement> make)
        {
            try
            {
                made.Add(make());
            }
            catch (Exception error) when (error is RuleSetMismatchException or KeyNotFoundException or InvalidOperationException)
            {
                problems.Add($"{id}: {error.Message}");
            }
        }
    }

    private sealed class OneDependency(AssessmentCollector collector) : IDependencyResolver
    {
        public object Resolve(IResolutionContext context, Type serviceType) => collector;
    }
}
