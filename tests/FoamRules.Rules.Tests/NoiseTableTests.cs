using System.Globalization;
using FoamRules.Testing;
using UnitsNet;

namespace FoamRules.Rules.Tests;

/// <summary>The rule set's table of permissible noise against the published one, row by row.</summary>
public sealed class NoiseTableTests
{
    [Fact]
    public void The_rule_set_has_the_published_rows_and_no_others()
    {
        var published = File.ReadAllLines(Repository.PathOf("shared", "check-values", "noise.csv")).Where(line => !line.StartsWith('#')).Skip(1)
            .Select(line => line.Split(',')).Select(row => (Number(row[0]), Number(row[1]))).ToList();
        var limits = Repository.LoadRules().RuleSets["us-federal"].Requirements["body.ears-covered"].Limits;
        var stated = Enumerable.Range(1, limits.Keys.Count(name => name.StartsWith("law.table.", StringComparison.Ordinal)) / 2)
            .Select(row => (limits[$"law.table.row-{row}.level"].As<Level>().Decibels, limits[$"law.table.row-{row}.time"].As<Duration>().Hours)).ToList();

        Assert.Equal(9, published.Count);
        Assert.Equal(published, stated);
        Assert.Equal(published[^1].Item1, limits["law.loudest"].As<Level>().Decibels);
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
