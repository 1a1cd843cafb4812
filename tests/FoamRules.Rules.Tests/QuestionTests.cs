using System.Text.RegularExpressions;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>What is not known comes ranked, each with a question that a person would ask.</summary>
public sealed class QuestionTests
{
    private static readonly Lazy<List<Report>> Reports = new(() =>
    [
        .. CaseFiles.Read().SelectMany(file => file.Cases).Select(one => one.PlanJson).Distinct().Select(json => Check(PlanReader.ReadText(json, "case", new ReadOptions(DateTimeOffset.UnixEpoch)))),
        .. Enumerable.Range(3000, 150).Select(seed => Check(PlanReader.ReadMessage(RandomPlans.Make((ulong)seed, 1 + (seed % 4)), new ReadOptions(DateTimeOffset.UnixEpoch)))),
    ]);

    [Fact]
    public void Every_field_that_a_requirement_waited_for_has_a_question()
    {
        var book = Repository.Book("US");
        var patterns = Reports.Value.SelectMany(report => report.Unknowns.Select(unknown => unknown.Path).Concat(report.PriceLines.SelectMany(line => line.Missing)))
            .Select(PatternOf).Distinct().Order(StringComparer.Ordinal);
        var without = patterns.Where(pattern => !book.Questions.ContainsKey(pattern)).ToList();
        Assert.True(without.Count == 0, string.Join(Environment.NewLine, without));
    }

    // A path without ids and indexes.
    private static string PatternOf(string path) => Regex.Replace(path, @"\[[^\]]*\]", "");

    private static Report Check(PlanRead read) => Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!;
}
