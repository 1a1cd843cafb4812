using System.Text.Json.Nodes;
using FoamRules.Cli.Commands;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Service;
using FoamRules.Text;

namespace FoamRules.Cli.Output;

/// <summary>One log by SARIF 2.1.0 for all plans, a run for each.</summary>
/// <param name="engine">The engine, which knows what is said of each requirement; null where a service judges, so that only the reports are known.</param>
internal sealed class SarifOutput(CheckEngine? engine) : IPlanOutput
{
    private readonly List<JsonObject> _runs = [];

    public void Write(Report report, PlanChecked plan) =>
        _runs.Add(SarifLog.Run(report, plan.Name, plan.Text, engine is null ? _ => null : SarifRules.Of(engine, report)));

    public void WriteSummary(IReadOnlyList<PlanChecked> plans)
    {
        // A program counts for itself.
    }

    public void Finish() => Console.Out.Write(ReadableJson.Write(SarifLog.Of(_runs)));
}
