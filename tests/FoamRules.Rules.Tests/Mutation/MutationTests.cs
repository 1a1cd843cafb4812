using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>
/// Are the cases worth anything? Each requirement is spoiled in each of its places, one at a time; its own cases must see it. What they do
/// not see stands in shared/cases/survivors/ with the reason, and nothing else may stand there.
/// </summary>
public sealed class MutationTests(ITestOutputHelper output)
{
    // For whoever writes cases: only the requirements whose ids begin so.
    private static readonly string Only = Environment.GetEnvironmentVariable("MUTANTS_OF") ?? "";

    [Fact]
    public void The_cases_of_each_requirement_see_every_mutant_of_it()
    {
        var results = Results();
        var reasons = Reasons();
        var wrong = new List<string>();
        var document = new StringBuilder("# Mutants\n\nWritten by the tests. Every requirement is spoiled in each of its places, one at a time: every limit moved past the values\nof its cases, every severity changed, every condition turned round or left out. Its own cases must see it. The parameters that\nrequirements share are moved too; the cases of one that reads them must see it.\n\n| requirement | caught | made |\n|---|---|---|\n");
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
        if (Only.Length == 0 && Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1")
        {
            File.WriteAllText(path, document.ToString());
        }

        Assert.True(wrong.Count == 0, $"mutants: caught {caught} of {all}; {wrong.Count} survive without a reason:{Environment.NewLine}{string.Join(Environment.NewLine, wrong.Order(StringComparer.Ordinal))}");
        Assert.True(Only.Length > 0 || File.ReadAllText(path) == document.ToString(), "docs/mutants.md is not what was found; UPDATE_GOLDENS=1 writes it anew");
    }

    // What takes longest begins first.
    private static ConcurrentBag<(string Requirement, int Made, List<string> Survivors)> Results()
    {
        var results = new ConcurrentBag<(string, int, List<string>)>();
        var benches = new ConcurrentBag<CaseBench>();
        var withParameters = ParameterMutants.Name.StartsWith(Only, StringComparison.Ordinal);
        var files = CaseFiles.Read().Where(file => withParameters || file.Requirement.StartsWith(Only, StringComparison.Ordinal)).OrderByDescending(file => file.Cases.Count);
        Parallel.ForEach(Partitioner.Create(files, EnumerablePartitionerOptions.NoBuffering), file =>
        {
            var bench = new CaseBench(file);
            benches.Add(bench);
            if (file.Requirement.StartsWith(Only, StringComparison.Ordinal))
            {
                var mutants = bench.Mutants();
                results.Add((bench.Requirement, mutants.Count, [.. mutants.Where(mutant => !bench.Sees(mutant)).Select(mutant => mutant.Name)]));
            }
        });
        if (withParameters)
        {
            var mutants = ParameterMutants.Of(benches);
            results.Add((ParameterMutants.Name, mutants.Count, [.. mutants.AsParallel().Where(one => !one.Readers.Any(bench => bench.Sees(one.Mutant))).Select(one => one.Mutant.Name)]));
        }

        return results;
    }

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
