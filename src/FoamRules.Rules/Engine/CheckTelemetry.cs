using System.Diagnostics;
using System.Diagnostics.Metrics;
using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Engine;

/// <summary>Why a plan is checked. Only an answer reaches a person, so only its findings are counted.</summary>
public enum CheckPurpose
{
    /// <summary>Somebody asked.</summary>
    Answer,

    /// <summary>A change is tried on a copy of the plan.</summary>
    Trial,

    /// <summary>A stored report is made again.</summary>
    Replay,
}

/// <summary>
/// What can be seen of checks from outside: one trace span and a few numbers a check, under the name <c>FoamRules</c>. Nothing of
/// a plan but its size, stage and rule sets is in them. Where nobody listens, it costs nothing.
/// </summary>
public static class CheckTelemetry
{
    /// <summary>The name of the meter and of the activity source.</summary>
    public const string Name = "FoamRules";

    private static readonly ActivitySource s_source = new(Name);
    private static readonly Meter s_meter = new(Name);
    private static readonly Counter<long> s_checks = s_meter.CreateCounter<long>("foamrules.checks", "{check}", "Plans checked, by stage, disposition and purpose.");
    private static readonly Counter<long> s_findings = s_meter.CreateCounter<long>("foamrules.findings", "{finding}", "Findings answered, by requirement, outcome and severity.");
    private static readonly Histogram<double> s_duration = s_meter.CreateHistogram<double>("foamrules.check.duration", "s", "How long a check took, by purpose.");
    private static readonly Histogram<int> s_items = s_meter.CreateHistogram<int>("foamrules.check.items", "{item}", "Work items in a plan that was checked.");

    /// <summary>Checks, and says so to whoever listens.</summary>
    internal static CheckResult Watch(Plan plan, CheckOptions options, Func<CheckResult> check)
    {
        using var span = s_source.StartActivity("check plan");
        var started = Stopwatch.GetTimestamp();
        var result = check();
        var purpose = options.Purpose.ToString().ToLowerInvariant();
        if (s_duration.Enabled)
        {
            s_duration.Record(Stopwatch.GetElapsedTime(started).TotalSeconds, [new("purpose", purpose)]);
        }

        var stage = RuleSetWords.Of(plan.Stage);
        var disposition = result.Report is { } answer ? RuleSetWords.Of(answer.Disposition) : "refused";
        s_checks.Add(1, new("stage", stage), new("disposition", disposition), new("purpose", purpose));
        if (result.Report is { } report && options.Purpose is CheckPurpose.Answer)
        {
            s_items.Record(plan.Work.Length);
            Count(report);
        }

        if (span is not null)
        {
            span.SetTag("foamrules.stage", stage).SetTag("foamrules.disposition", disposition).SetTag("foamrules.purpose", purpose).SetTag("foamrules.items", plan.Work.Length)
                .SetTag("foamrules.rule_sets", result.Report?.RuleSets.Select(set => $"{set.Id} {set.Version}").ToArray())
                .SetTag("foamrules.findings", result.Report?.Findings.Length);
        }

        return result;
    }

    private static void Count(Report report)
    {
        if (!s_findings.Enabled)
        {
            return;
        }

        foreach (var group in report.Findings.GroupBy(finding => (finding.Requirement, finding.Outcome, finding.Severity)))
        {
            s_findings.Add(group.Count(), new("requirement", group.Key.Requirement), new("outcome", RuleSetWords.Of(group.Key.Outcome)), new("severity", RuleSetWords.Of(group.Key.Severity)));
        }
    }
}
