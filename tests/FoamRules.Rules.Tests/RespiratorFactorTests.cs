using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>The rule sets' protection factors against every cell of the published table, and nothing beside it.</summary>
public sealed class RespiratorFactorTests
{
    [Theory]
    [InlineData("general-practice")]
    [InlineData("us-federal")]
    public void A_rule_set_has_the_published_factors_and_no_others(string ruleSet)
    {
        var published = Published();
        var stated = Repository.LoadRules().RuleSets[ruleSet].Requirements["body.respirator-protects-enough"].Limits
            .Where(limit => limit.Key.StartsWith("apf.", StringComparison.Ordinal))
            .ToDictionary(limit => limit.Key, limit => limit.Value);

        Assert.Equal(22, published.Count);
        Assert.Equal(published.Keys.Order(StringComparer.Ordinal), stated.Keys.Order(StringComparer.Ordinal));
        Assert.All(published, cell => Assert.Equal(cell.Value, stated[cell.Key].Factor));
        // A higher factor would loosen the table: no layer may give one.
        Assert.All(stated.Values, factor => Assert.Equal(Tighter.Lower, factor.Tighter));
    }

    // Columns: respirator, mode, one column a facepiece, status.
    private static Dictionary<string, double> Published()
    {
        var lines = File.ReadAllLines(Repository.PathOf("shared", "check-values", "respirator-apf.csv")).Where(line => !line.StartsWith('#')).ToList();
        var head = lines[0].Split(',');
        return lines.Skip(1).Select(line => line.Split(','))
            .SelectMany(row => head.Index().Skip(2).SkipLast(1).Where(column => row[column.Index].Length > 0)
                .Select(column => (Name: Name(row[0], row[1], column.Item), Factor: double.Parse(row[column.Index], System.Globalization.CultureInfo.InvariantCulture))))
            .ToDictionary(cell => cell.Name, cell => cell.Factor);
    }

    private static string Name(params string[] steps) =>
        "apf." + string.Join('.', steps.Where(step => step.Length > 0)).Replace('_', '-');
}
