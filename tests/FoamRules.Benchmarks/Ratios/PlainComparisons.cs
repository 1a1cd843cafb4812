using System.Globalization;
using RulesEngine.Models;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>As many comparisons of a number with a number as asked, by a general rule engine.</summary>
/// <param name="count">How many.</param>
internal sealed class PlainComparisons(int count)
{
    private const string Name = "comparisons";

    private readonly RulesEngine.RulesEngine _engine = new([new Workflow
    {
        WorkflowName = Name,
        Rules = [.. Enumerable.Range(0, count).Select(i => new Rule
        {
            RuleName = $"rule{i}",
            Expression = string.Create(CultureInfo.InvariantCulture, $"input1.Value <= {i}.5"),
        })],
    }]);

    private readonly Input _input = new() { Value = count / 2.0 };

    /// <summary>Evaluates all of them.</summary>
    public async Task Run()
    {
        var results = await _engine.ExecuteAllRulesAsync(Name, _input);
        if (results.Count != count || !results.Exists(result => result.IsSuccess) || !results.Exists(result => !result.IsSuccess))
        {
            throw new InvalidOperationException("the comparisons were not made");
        }
    }
}

/// <summary>What is compared.</summary>
public sealed class Input
{
    /// <summary>The number.</summary>
    public double Value { get; set; }
}
