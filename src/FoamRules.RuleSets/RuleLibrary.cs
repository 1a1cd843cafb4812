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

    /// <summary>Reads every rule set below a folder.</summary>
    /// <param name="folder">The folder with one folder a rule set.</param>
    /// <param name="violations">Everything that is wrong, with file, line and column.</param>
    /// <returns>The library; null where anything is wrong.</returns>
    public static RuleLibrary? Load(string folder, out IReadOnlyList<Violation> violations)
    {
        if (!Directory.Exists(folder))
        {
            violations = [new Violation("", $"no folder {folder}", "a folder with one folder a rule set", "name the folder of the rule sets")];
            return null;
        }

        var reads = Directory.GetDirectories(folder).Order(StringComparer.Ordinal).Select(RuleSetReader.Read).ToList();
        var all = reads.SelectMany(read => read.Violations).ToList();
        var sets = reads.Select(read => read.RuleSet).OfType<RuleSet>().ToImmutableSortedDictionary(set => set.Id, set => set, StringComparer.Ordinal);
        if (all.Count == 0)
        {
            all.AddRange(sets.Values.SelectMany(set => LayerCheck.Check(set, sets)));
        }

        if (all.Count == 0)
        {
            all.AddRange(DeclaredCheck.Check(sets));
        }

        violations = all;
        return all.Count == 0 ? new RuleLibrary(sets) : null;
    }

    /// <summary>The rule sets for a plan.</summary>
    public RuleSetChoice Choose(RuleSetQuestion question) => RuleSetChooser.Choose(RuleSets, question);

    /// <summary>All rule sets that are here, layered: what is asked anywhere, with the stricter of each limit.</summary>
    public RuleBook Everything() => RuleBook.Build(RuleSets.Values);
}
