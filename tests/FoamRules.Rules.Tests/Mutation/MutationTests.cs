using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>
/// Are the cases worth anything? Each requirement is spoiled in each of its places, one at a time; its own cases must see it. What they do
/// not see stands in shared/cases/survivors/ with the reason, and nothing else may stand there.
/// </summary>
public sealed class MutationTests(ITestOutputHelper output)
{
    private static readonly IReadOnlyList<IHazardRule> Hazards = HazardRules.Create();

    [Fact]
    public void The_cases_of_each_requirement_see_every_mutant_of_it()
    {
        var results = new ConcurrentBag<(string Requirement, int Made, List<string> Survivors)>();
        Parallel.ForEach(CaseFiles.Read(), file => results.Add(Try(file)));
        var reasons = Reasons();
        var wrong = new List<string>();
        var document = new StringBuilder("# Mutants\n\nWritten by the tests. Every requirement is spoiled in each of its places, one at a time: every limit moved past the values\nof its cases, every severity changed, every condition turned round or left out. Its own cases must see it.\n\n| requirement | caught | made |\n|---|---|---|\n");
        foreach (var (requirement, made, survivors) in results.OrderBy(result => result.Requirement, StringComparer.Ordinal))
        {
            var known = reasons.GetValueOrDefault(requirement) ?? [];
            document.Append(CultureInfo.InvariantCulture, $"| {requirement} | {made - survivors.Count} | {made} |\n");
            wrong.AddRange(survivors.Where(survivor => !known.ContainsKey(survivor)).Select(survivor => $"{requirement}: {survivor}"));
            wrong.AddRange(known.Keys.Except(survivors).Select(gone => $"{requirement}: {gone} is said to survive, and is caught or not made"));
        }

        var (caught, all) = (results.Sum(result => result.Made - result.Survivors.Count), results.Sum(result => result.Made));
        document.Append(CultureInfo.InvariantCulture, $"\nCaught {caught} of {all}.\n");
        Explain(document, reasons);
        output.WriteLine($"mutants: caught {caught} of {all}");
        var path = Repository.PathOf("docs", "mutants.md");
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1")
        {
            File.WriteAllText(path, document.ToString());
        }

        Assert.True(wrong.Count == 0, $"mutants: caught {caught} of {all}; {wrong.Count} survive without a reason:{Environment.NewLine}{string.Join(Environment.NewLine, wrong.Order(StringComparer.Ordinal))}");
        Assert.Equal(File.ReadAllText(path), document.ToString());
    }

    private static (string, int, List<string>) Try(CaseFile file)
    {
        var runs = file.Cases.Select(one => new CaseRun(one)).ToList();
        var specs = runs.Select(run => run.Book.Requirements.GetValueOrDefault(file.Requirement)).OfType<RequirementSpec>().Distinct().ToList();
        var sound = specs.ToDictionary(spec => spec, Make, ReferenceEqualityComparer.Instance as IEqualityComparer<RequirementSpec>);
        runs = [.. runs.Where(run => run.Book.Requirements.ContainsKey(file.Requirement))];
        var wrong = runs.Where(run => !run.IsAsExpected(sound[SpecOf(run)], Hazards)).ToList();
        runs = [.. runs.Except(wrong)];
        var held = runs.Select(run => run.Assess(sound[SpecOf(run)], Hazards)?.Verdict).Where(verdict => verdict is { Limit: not null, Value: not null })
            .ToLookup(verdict => verdict!.Limit!.Name, verdict => verdict!.Value!);
        var mutants = MutantMaker.All(specs, held).ToList();
        return (file.Requirement, mutants.Count, [.. mutants.Where(mutant => !IsCaught(mutant)).Select(mutant => mutant.Name)]);

        RequirementSpec SpecOf(CaseRun run) => run.Book.Requirements[file.Requirement];

        bool IsCaught(Mutant mutant)
        {
            var spoiled = new Dictionary<RequirementSpec, IRequirement?>(ReferenceEqualityComparer.Instance as IEqualityComparer<RequirementSpec>);
            foreach (var run in runs)
            {
                var spec = SpecOf(run);
                if (!spoiled.TryGetValue(spec, out var requirement))
                {
                    try
                    {
                        spoiled[spec] = requirement = mutant.Change(spec) is { } changed ? mutant.Wrap(Make(changed)) : null;
                    }
                    catch (Exception refused) when (refused is RuleSetMismatchException or InvalidOperationException)
                    {
                        // Such a rule set does not load.
                        return true;
                    }
                }

                if (requirement is not null && !run.IsAsExpected(requirement, Hazards))
                {
                    return true;
                }
            }

            return false;
        }
    }

    private static IRequirement Make(RequirementSpec spec) =>
        AllRequirements.Makers.TryGetValue(spec.Id, out var make) ? make(spec) : DeclaredRequirements.Make(spec, [.. Hazards]);

    // One file a topic: the requirement, the mutant, and why no case can see it.
    private static Dictionary<string, Dictionary<string, string>> Reasons() =>
        Directory.GetFiles(Repository.PathOf("shared", "cases", "survivors"), "*.yaml")
            .SelectMany(file => ((MapNode)DataText.Read(File.ReadAllText(file), file).Root!).Entries)
            .ToDictionary(entry => entry.Name, entry => ((MapNode)entry.Value).Entries.ToDictionary(mutant => mutant.Name, mutant => ((ScalarNode)mutant.Value).Text!));

    private static void Explain(StringBuilder document, Dictionary<string, Dictionary<string, string>> reasons)
    {
        document.Append("\n## Survivors, and why no case can see them\n\n");
        foreach (var (requirement, mutants) in reasons.OrderBy(pair => pair.Key, StringComparer.Ordinal))
        {
            foreach (var (mutant, reason) in mutants.OrderBy(pair => pair.Key, StringComparer.Ordinal))
            {
                document.Append(CultureInfo.InvariantCulture, $"- {requirement}, {mutant}: {reason}\n");
            }
        }
    }
}
