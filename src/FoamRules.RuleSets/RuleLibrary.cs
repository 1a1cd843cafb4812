using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets;

/// <summary>All rule sets of a folder, checked against each other.</summary>
public sealed class RuleLibrary
{
    /// <summary>The rule set that lies below all others.</summary>
    public const string GeneralPractice = "general-practice";

    private RuleLibrary(ImmutableSortedDictionary<string, RuleSet> ruleSets) => RuleSets = ruleSets;

    /// <summary>The rule sets by id.</summary>
    public ImmutableSortedDictionary<string, RuleSet> RuleSets { get; }

    /// <summary>SHA-256 of all rule sets' files, as <see cref="RuleSetFiles.DigestOf"/> gives it.</summary>
    public string Digest => RuleSetFiles.DigestOf(RuleSets.Values.Select(set => (set.Id, set.Digest)));

    /// <summary>The languages in which reports can be written: English, and those into which general practice is translated.</summary>
    public ImmutableArray<string> Languages =>
        [Translation.English, .. RuleSets.TryGetValue(GeneralPractice, out var practice) ? practice.Translations.Keys : []];

    /// <summary>Reads every rule set below a folder.</summary>
    /// <param name="folder">The folder with one folder a rule set.</param>
    /// <param name="violations">Everything that is wrong, with file, line and column.</param>
    /// <param name="translations">Read the translations, too.</param>
    /// <returns>The library; null where anything is wrong.</returns>
    public static RuleLibrary? Load(string folder, out IReadOnlyList<Violation> violations, bool translations = true)
    {
        if (!Directory.Exists(folder))
        {
            violations = [new Violation("", $"no folder {folder}", "a folder with one folder a rule set", "name the folder of the rule sets")];
            return null;
        }

        return Load(RuleSetFiles.Below(folder), out violations, translations);
    }

    /// <summary>Reads rule sets from files that are in memory.</summary>
    /// <param name="sets">The files of each rule set.</param>
    /// <param name="violations">Everything that is wrong, with file, line and column.</param>
    /// <param name="translations">Read the translations, too.</param>
    /// <returns>The library; null where anything is wrong.</returns>
    public static RuleLibrary? Load(IEnumerable<RuleSetFiles> sets, out IReadOnlyList<Violation> violations, bool translations = true)
    {
        // Each by itself, so at the same time: reading them is a good part of a service's start.
        var reads = sets.AsParallel().AsOrdered().Select(set => RuleSetReader.Read(set, translations)).ToList();
        violations = [.. reads.SelectMany(read => read.Violations)];
        return violations.Count == 0 ? Check(reads.Select(read => read.RuleSet!), out violations) : null;
    }

    /// <summary>This library with one more rule set, or with another text of one that it has.</summary>
    /// <param name="draft">The rule set's files.</param>
    /// <param name="violations">Everything that is wrong, with file, line and column, in those that stand on it too.</param>
    /// <returns>The library with the draft; null where anything is wrong. This one stays as it is.</returns>
    public RuleLibrary? With(RuleSetFiles draft, out IReadOnlyList<Violation> violations)
    {
        var read = RuleSetReader.Read(draft);
        violations = read.Violations;
        return read.RuleSet is { } set ? Check(RuleSets.SetItem(set.Id, set).Values, out violations) : null;
    }

    private static RuleLibrary? Check(IEnumerable<RuleSet> all, out IReadOnlyList<Violation> violations)
    {
        var sets = all.ToImmutableSortedDictionary(set => set.Id, set => set, StringComparer.Ordinal);
        // Many rule sets stand on the same ones: each book is made once.
        var books = new Dictionary<string, RuleBook>(StringComparer.Ordinal);
        var wrong = sets.Values.SelectMany(set => LayerCheck.Check(set, sets, BookOf)).ToList();
        if (wrong.Count == 0)
        {
            wrong.AddRange(DeclaredCheck.Check(sets, BookOf));
        }

        RuleBook BookOf(IEnumerable<string> ids)
        {
            var layers = ids.Order(StringComparer.Ordinal).ToList();
            var key = string.Join('+', layers);
            return books.TryGetValue(key, out var book) ? book : books[key] = RuleBook.Build(layers.Select(id => sets[id]));
        }

        violations = wrong;
        return wrong.Count == 0 ? new RuleLibrary(sets) : null;
    }

    /// <summary>The rule sets for a plan.</summary>
    public RuleSetChoice Choose(RuleSetQuestion question) => RuleSetChooser.Choose(RuleSets, question);

    /// <summary>A rule set with general practice and all that it stands on or adopts, whatever its status and its dates.</summary>
    public RuleBook Stack(string id) => RuleBook.Build(Layering.Closure(id, RuleSets).Append(id).Append(GeneralPractice).Distinct().Where(RuleSets.ContainsKey).Select(one => RuleSets[one]));

    /// <summary>All rule sets that are here, layered: what is asked anywhere, with the stricter of each limit.</summary>
    public RuleBook Everything() => RuleBook.Build(RuleSets.Values);
}
