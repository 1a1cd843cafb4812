using System.Globalization;
using System.Text.Json;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.RuleSets.Tests.Declared;

/// <summary>
/// The language's published conformance cases. What the language of rule sets keeps must answer as published; what it leaves out
/// must be refused at load, and each such case stands in outside-the-language.yaml with its reason. None is skipped.
/// </summary>
public sealed class ConformanceTests(ITestOutputHelper output)
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Every_case_gives_the_published_answer_or_is_refused_at_load_as_listed(bool compiled)
    {
        using var file = JsonDocument.Parse(File.ReadAllText(Repository.PathOf("shared", "check-values", "cel-conformance.json")));
        var outside = Outside();
        var wrong = new List<string>();
        var counts = new SortedDictionary<string, int>(StringComparer.Ordinal);
        foreach (var one in file.RootElement.GetProperty("cases").EnumerateArray())
        {
            var name = one.GetProperty("name").GetString()!;
            var run = PlainRun.Of(one.GetProperty("expr").GetString()!, compiled);
            var reason = outside.GetValueOrDefault(name);
            outside.Remove(name);
            var verdict = Judge(one.GetProperty("expect"), run, reason);
            counts[verdict.Count] = counts.GetValueOrDefault(verdict.Count) + 1;
            if (verdict.Wrong is not null)
            {
                wrong.Add($"{name}: {one.GetProperty("expr")} => {verdict.Wrong}");
            }
        }

        foreach (var (what, count) in counts)
        {
            output.WriteLine($"{count,4} {what}");
        }

        wrong.AddRange(outside.Keys.Select(name => $"{name}: listed as outside, but there is no such case"));
        Assert.Equal(461, counts.Values.Sum());
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    private static (string Count, string? Wrong) Judge(JsonElement expect, PlainRun run, string? reason)
    {
        if (run.Refused is not null)
        {
            var isListed = reason is not null;
            var wantsError = expect.TryGetProperty("error", out _);
            return (wantsError ? "an error is published, and it is refused at load" : $"outside: {reason}", wantsError || isListed ? null : $"refused: {run.Refused}");
        }

        if (reason is not null)
        {
            return ("wrong", $"listed as outside ({reason}), but it loads");
        }

        return Matches(expect.EnumerateObject().Single(), run) ? ("inside, with the published answer", null) : ("wrong", $"expected {expect}, found {run}");
    }

    private static bool Matches(JsonProperty expect, PlainRun run) => expect.Name switch
    {
        "error" => run.Failed is not null,
        "bool" => run.Value is bool found && found == expect.Value.GetBoolean(),
        "int64" => run.Value is long found && found == long.Parse(expect.Value.GetString()!, CultureInfo.InvariantCulture),
        "string" => run.Value is string found && found == expect.Value.GetString(),
        "double" => run.Value is double found && found.Equals(Number(expect.Value)),
        _ => false,
    };

    private static double Number(JsonElement value) => value.ValueKind == JsonValueKind.Number
        ? value.GetDouble()
        : value.GetString() switch { "inf" => double.PositiveInfinity, "-inf" => double.NegativeInfinity, _ => double.NaN };

    private static Dictionary<string, string> Outside()
    {
        var path = Repository.PathOf("tests", "FoamRules.RuleSets.Tests", "Declared", "outside-the-language.yaml");
        var root = (MapNode)DataText.Read(File.ReadAllText(path), path).Root!;
        return root.Entries.SelectMany(entry => ((ListNode)entry.Value).Items.Select(item => (((ScalarNode)item).Text!, entry.Name))).ToDictionary(pair => pair.Item1, pair => pair.Name);
    }
}
