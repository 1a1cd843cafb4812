using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Records.Tests;

/// <summary>The rule sets that ship, but for one severity: what holds at plan in fill.wall-holds-pressure stops.</summary>
internal static class StricterRules
{
    private const string Was = "  not-met: { quote: caution, plan: hold, pre-start: stop }\n  missing: { quote: caution, plan: hold, pre-start: hold }\n  release: [engineer of record, safety officer]\n  sources: [fill-walls]";

    private static readonly Lazy<CheckEngine> s_engine = new(() => Engine(Sets()));

    /// <summary>An engine with them.</summary>
    public static CheckEngine Engine() => s_engine.Value;

    /// <summary>An engine with the rule sets that ship but for one.</summary>
    public static CheckEngine Without(string id) => Engine(RuleSetFiles.Below(Repository.PathOf("rulesets")).Where(set => set.Id != id));

    /// <summary>Writes them into a folder.</summary>
    public static void WriteTo(string folder)
    {
        foreach (var set in Sets())
        {
            foreach (var file in set.Files)
            {
                var path = Path.Combine(folder, set.Id, file.Name);
                Directory.CreateDirectory(Path.GetDirectoryName(path)!);
                File.WriteAllText(path, file.Text);
            }
        }
    }

    private static IEnumerable<RuleSetFiles> Sets() => RuleSetFiles.Below(Repository.PathOf("rulesets")).Select(set => set.Id != RuleLibrary.GeneralPractice ? set : new RuleSetFiles(set.Id,
        [.. set.Files.Select(file => new RuleSetFile(file.Name, file.Text.Replace(Was, Was.Replace("plan: hold, pre-start: stop", "plan: stop, pre-start: stop", StringComparison.Ordinal), StringComparison.Ordinal)))]));

    private static CheckEngine Engine(IEnumerable<RuleSetFiles> sets) =>
        new(RuleLibrary.Load([.. sets], out var violations) ?? throw new InvalidOperationException(string.Join("; ", violations)));
}
