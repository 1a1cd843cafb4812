using System.Globalization;
using System.Text;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>Every requirement against its cases in shared/cases, through the engine in process.</summary>
public sealed class CaseTests(ITestOutputHelper output)
{
    public static TheoryData<string> Requirements { get; } = [.. CaseFiles.Read().Select(file => file.Requirement)];

    [Theory]
    [MemberData(nameof(Requirements))]
    public void A_requirement_says_what_its_cases_expect(string requirement)
    {
        var file = CaseFiles.Read().Single(file => file.Requirement == requirement);
        var wrong = file.Cases.Select(one => CaseCheck.Mismatch(one, CheckedCases.Of(one).Report)).OfType<string>().ToList();
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    [Fact]
    public void Every_requirement_has_every_kind_of_case_or_says_why_not()
    {
        var files = CaseFiles.Read().ToDictionary(file => file.Requirement);
        var ids = Repository.Engine.Library.Everything().Requirements.Keys.ToHashSet();
        var wrong = new List<string>();
        var table = new StringBuilder("# Cases by requirement\n\nWritten by the tests from shared/cases; a dash is a kind that cannot be, with its reason in the file.\n\n");
        table.Append("| requirement | ").AppendJoin(" | ", CaseFiles.Kinds).Append(" |\n|---|").Append(string.Concat(CaseFiles.Kinds.Select(_ => "---|"))).Append('\n');
        foreach (var id in ids.Order(StringComparer.Ordinal))
        {
            if (!files.TryGetValue(id, out var file))
            {
                wrong.Add($"{id}: no file shared/cases/{id}.yaml");
                continue;
            }

            var counts = CaseFiles.Kinds.Select(kind => file.Cases.Count(one => one.Covers == kind)).ToList();
            table.Append("| ").Append(id).Append(" | ").AppendJoin(" | ", counts.Select(count => count == 0 ? "-" : count.ToString(CultureInfo.InvariantCulture))).Append(" |\n");
            wrong.AddRange(CaseFiles.Kinds.Zip(counts).Where(pair => pair.Second == 0 && !file.Lacks.ContainsKey(pair.First)).Select(pair => $"{id}: no case that covers {pair.First}, and no reason under lacks"));
            wrong.AddRange(file.Lacks.Keys.Where(kind => !CaseFiles.Kinds.Contains(kind) || file.Cases.Any(one => one.Covers == kind)).Select(kind => $"{id}: lacks {kind}, but has it or it is no kind"));
        }

        wrong.AddRange(files.Keys.Where(id => !ids.Contains(id)).Select(id => $"{id}: cases for a requirement that is not there"));
        table.Append(CultureInfo.InvariantCulture, $"\n{files.Count} requirements, {files.Values.Sum(file => file.Cases.Count)} cases.\n");
        output.WriteLine(table.ToString());
        var document = Repository.PathOf("docs", "cases.md");
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1")
        {
            File.WriteAllText(document, table.ToString());
        }

        Assert.Equal(File.ReadAllText(document), table.ToString());
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    internal static Report Check(Case one)
    {
        var read = PlanReader.ReadText(one.PlanJson, null, new ReadOptions(default));
        Assert.True(read.Plan is not null, $"{one}: {string.Join("; ", read.Violations)}");
        return Repository.Engine.Check(read.Plan, new CheckOptions(read.Digest), TestContext.Current.CancellationToken).Report!;
    }
}
