using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Hazards;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Catalogue;

/// <summary>What an engine judges by, told to people and programs; and what another choice of rule sets would change.</summary>
/// <param name="engine">The engine.</param>
public sealed class RuleCatalogue(CheckEngine engine)
{
    /// <summary>The topics of all requirements.</summary>
    public IEnumerable<string> Topics => Everything().Requirements.Values.Select(spec => spec.Topic).Distinct();

    /// <summary>A choice of rule sets as one book.</summary>
    /// <param name="names">Their ids, or documents of which they are editions; what they stand on or adopt comes by itself. Empty: all that there are, where the tightest limit stands.</param>
    /// <param name="violations">Names that cannot be used, under the path <c>rule_sets</c>.</param>
    public RuleBook? Book(IReadOnlyList<string> names, out IReadOnlyList<Violation> violations)
    {
        violations = [];
        if (names.Count == 0)
        {
            return engine.Library.Everything();
        }

        var choice = engine.Library.Choose(new RuleSetQuestion(null, null, null, names));
        violations = choice.Violations;
        return violations.Count == 0 ? RuleBook.Build(choice.Layers) : null;
    }

    /// <summary>The rule sets of a book as reports name them, the lowest layer first.</summary>
    public static ImmutableArray<RuleSetUsed> Used(RuleBook book) => [.. book.Layers.Select(ReportBuilder.Used)];

    /// <summary>The requirements of a book, by id.</summary>
    /// <param name="book">The book.</param>
    /// <param name="topic">The topic; null: all.</param>
    public static ImmutableArray<RequirementSummary> Requirements(RuleBook book, string? topic) =>
        [.. book.Requirements.Values.Where(spec => topic is null || spec.Topic == topic).Select(spec => new RequirementSummary(spec.Id, spec.Topic, spec.Must, spec.Layers))];

    /// <summary>A requirement in full; null where the book has none of this id.</summary>
    /// <param name="book">The book.</param>
    /// <param name="id">The requirement's id.</param>
    /// <param name="units">The units of the sentences.</param>
    public static RequirementDetail? Requirement(RuleBook book, string id, DisplayUnits units)
    {
        if (!book.Requirements.TryGetValue(id, out var spec))
        {
            return null;
        }

        var hazard = spec.Declared?.Hazard ?? HazardTexts.IdOf(AllRequirements.Makers[id](spec).Answers);
        return new RequirementDetail
        {
            Id = spec.Id,
            Topic = spec.Topic,
            MustHold = spec.Must,
            Hazard = book.Hazards[hazard].Name,
            RuleSets = spec.Layers,
            Severities = Severities(spec.NotMet, spec.Missing),
            Tiers = [.. spec.Tiers.Select(pair => new SeverityTier(pair.Key, Severities(pair.Value.NotMet, pair.Value.Missing), Sources(pair.Value.Sources)))],
            Limits = Limits(spec.Limits, units),
            Sources = Sources(spec.Sources),
            Says = Texts(spec.Says),
            NotApplicable = Texts(spec.NotApplicable),
            Remedies = Texts(spec.Remedies),
            Caution = spec.Caution,
            Example = spec.Example,
            ReleaseRoles = spec.Release,
            ImminentSetBy = spec.ImminentSetBy,
            Declared = spec.Declared is { } rule
                ? new Declaration(RuleSetWords.Of(rule.Bearer), rule.Applies?.Text, rule.Met.Text, [.. rule.Needs.Select(need => need.Text)])
                : null,
        };
    }

    /// <summary>The rule sets, the lowest layer first.</summary>
    public ImmutableArray<RuleSetSummary> RuleSets() => [.. Everything().Layers.Select(Summary)];

    /// <summary>What one rule set itself says; null where there is none of this id.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="units">The units of the sentences.</param>
    public RuleSetDetail? RuleSet(string id, DisplayUnits units) => engine.Library.RuleSets.GetValueOrDefault(id) is { } set
        ? new RuleSetDetail(
            Summary(set),
            [.. set.Requirements.Values.Select(entry => new RequirementStated(
                entry.Id, entry.Must, entry.NotMet is null && entry.Missing is null ? [] : Severities(entry.NotMet, entry.Missing), Limits(entry.Limits, units), Sources(entry.Sources)))],
            Limits(set.Parameters, units),
            Sources([.. set.Sources.Values]))
        : null;

    /// <summary>What differs between two books.</summary>
    /// <param name="before">The book before.</param>
    /// <param name="after">The book after.</param>
    /// <param name="units">The units of the sentences.</param>
    public static ImmutableArray<Difference> Compare(RuleBook before, RuleBook after, DisplayUnits units) => Comparison.Of(before, after, units);

    /// <summary>What differs for a plan. The rule sets that it names itself do not count here.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="before">The book before.</param>
    /// <param name="after">The book after.</param>
    /// <param name="units">The units of the sentences.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="OperationCanceledException">The caller gave up.</exception>
    public PlanComparison Compare(Plan plan, RuleBook before, RuleBook after, DisplayUnits units, CancellationToken cancellation = default)
    {
        var options = new CheckOptions(Units: units);
        var (was, will) = (engine.Check(plan, before, options, cancellation), engine.Check(plan, after, options, cancellation));
        return new PlanComparison(plan.Name, was.Disposition, will.Disposition, FindingComparison.Of(was, will));
    }

    /// <summary>Reads a draft of a rule set against those that there are; nothing is kept.</summary>
    /// <param name="files">The draft's files; an id that is there already is its next version.</param>
    /// <param name="units">The units of the sentences.</param>
    public DraftChecked Check(RuleSetFiles files, DisplayUnits units)
    {
        if (engine.Library.With(files, out var violations) is not { } library)
        {
            return DraftChecked.Wrong(violations);
        }

        var set = library.RuleSets[files.Id];
        var after = library.Stack(set.Id);
        // What it stands on, without itself; the general practice stands on nothing, so its next version is held against this one.
        var before = RuleBook.Build(engine.Library.Stack(RuleLibrary.GeneralPractice).Layers.Concat(after.Layers.Where(layer => layer.Id != set.Id && layer.Id != RuleLibrary.GeneralPractice)));
        try
        {
            // Compiled for what it finds: a limit that a class needs and a layer gives in another kind, a hazard that nothing raises.
            _ = new RuleNetwork(after);
            WordsKept.Check(engine.Library, library);
        }
        catch (Exception error) when (error is Judging.RuleSetMismatchException or KeyNotFoundException or InvalidOperationException)
        {
            return DraftChecked.Wrong([new Violation("", error.Message, "rule sets that fit the requirements judged", "mend what is named", file: $"{set.Id}/rule-set.yaml")]);
        }

        return new DraftChecked(Summary(set), [], Comparison.Of(before, after, units), after.Relaxations);
    }

    private RuleBook Everything() => engine.Library.Everything();

    private static RuleSetSummary Summary(RuleSet set) => new()
    {
        Id = set.Id,
        Title = set.Title,
        Version = set.Version,
        Level = set.Level,
        Above = set.Above,
        Status = set.Head.Status,
        EffectiveFrom = set.Head.From?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "",
        EffectiveUntil = set.Head.Until?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) ?? "",
        Countries = set.Head.Countries,
        Region = set.Head.Region,
        Adopts = set.Head.Adopts,
        EditionOf = set.Head.EditionOf,
        Digest = set.Digest,
        Requirements = set.Requirements.Count,
        Limits = set.Parameters.Count + set.Requirements.Values.Sum(entry => entry.Limits.Count),
        TopicsNotJudged = set.Head.TopicsNotJudged,
    };

    private static ImmutableArray<StageSeverities> Severities(Severities? notMet, Severities? missing) =>
        [.. Enum.GetValues<Stage>().Select(stage => new StageSeverities(stage, notMet?.At(stage), missing?.At(stage)))];

    private static ImmutableArray<LimitStated> Limits(ImmutableSortedDictionary<string, Limit> limits, DisplayUnits units) =>
        [.. limits.Values.Select(limit => Stated(limit, units))];

    private static LimitStated Stated(Limit limit, DisplayUnits units) => new(
        limit.Name, LimitText.Show(limit, units), limit.Value, limit.Or, limit.Words, limit.Tighter, limit.Layer, Used(limit.Source), limit.RelaxedBy, limit.IsOverruled, [.. limit.Below.Select(below => Stated(below, units))]);

    private static ImmutableArray<SourceUsed> Sources(ImmutableArray<Source> sources) => [.. sources.Select(Used)];

    private static SourceUsed Used(Source source) => new(source.Citation, source.Status, source.Layer);

    private static ImmutableArray<KeyedText> Texts(ImmutableSortedDictionary<string, string> texts) => [.. texts.Select(pair => new KeyedText(pair.Key, pair.Value))];
}

/// <summary>What a draft of a rule set is worth.</summary>
/// <param name="RuleSet">The draft; null where anything is wrong.</param>
/// <param name="Violations">Everything that is wrong, with file, line and column.</param>
/// <param name="Differences">What it changes against the rule sets that it stands above.</param>
/// <param name="Relaxations">Relaxations that would be in force, by authority.</param>
public sealed record DraftChecked(RuleSetSummary? RuleSet, IReadOnlyList<Violation> Violations, ImmutableArray<Difference> Differences, ImmutableArray<string> Relaxations)
{
    internal static DraftChecked Wrong(IReadOnlyList<Violation> violations) => new(null, violations, [], []);
}
