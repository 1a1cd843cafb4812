using System.Runtime.CompilerServices;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Records.Store;
using FoamRules.Rules.Engine;
using Google.Protobuf;

namespace FoamRules.Records.Reviews;

/// <summary>A plan that was judged for the record.</summary>
/// <param name="Judged">What is written into the log.</param>
/// <param name="Plan">The plan as it was judged.</param>
/// <param name="Report">The report.</param>
/// <param name="Read">The plan as the engine has read it.</param>
/// <param name="RuleSets">The rule sets that could be chosen.</param>
internal sealed record JudgedForRecord(Judged Judged, Plan Plan, Report Report, Model.Plan Read, IReadOnlyList<RuleSetRow> RuleSets);

/// <summary>Judges plans so that the report can be made again from what is written.</summary>
/// <param name="engine">The engine; one act is judged whole by one engine.</param>
internal sealed class Judge(CheckEngine engine)
{
    // The rule sets are the same for every plan of an engine, and large.
    private static readonly ConditionalWeakTable<CheckEngine, IReadOnlyList<RuleSetRow>> Rows = [];

    /// <summary>Judges a plan.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="now">Written into a plan that does not say when it is judged.</param>
    /// <param name="stage">The stage; null: the plan's own, which must be quote or plan.</param>
    /// <param name="units">The units of the sentences.</param>
    /// <param name="cancellation">Gives up where the caller does.</param>
    /// <exception cref="RefusedException">The plan cannot be read, or names a rule set that nobody knows.</exception>
    public JudgedForRecord Of(Plan plan, DateTimeOffset now, Stage? stage, DisplayUnits units, CancellationToken cancellation)
    {
        var read = PlanReader.ReadMessage(plan, new ReadOptions(now, (Model.Stage?)stage));
        if (read.Plan is null)
        {
            throw Unreadable(read.Violations);
        }

        if (stage is null && read.Message!.Stage is not (Stage.Quote or Stage.Plan))
        {
            throw Unreadable([new Model.Violation("stage", $"`{read.Plan.Stage}`", "quote or plan", "review the plan first; pre-start and close-out have calls of their own")]);
        }

        var result = engine.Check(read.Plan, new CheckOptions(read.Digest, Units: units == DisplayUnits.Unspecified ? null : (Model.DisplayUnits)units), cancellation);
        if (result.Report is null)
        {
            throw Unreadable(result.Violations);
        }

        var report = ReportMapper.ToMessage(result.Report);
        var judged = new Judged { Plan = read.Message.ToByteString(), Report = report.ToByteString(), Units = units };
        judged.Library.AddRange(engine.Library.RuleSets.Values.Select(set => new LibraryRuleSet { Id = set.Id, Digest = set.Digest }));
        return new JudgedForRecord(judged, read.Message!, report, read.Plan, Rows.GetValue(engine, known => [.. known.Library.RuleSets.Values.Select(Row)]));
    }

    /// <summary>Who may release a requirement, by the rule sets with which a plan was judged.</summary>
    public IReadOnlyList<string> ReleaseRoles(JudgedForRecord judged, string requirement) =>
        engine.BookFor(judged.Read, new CheckOptions())?.Requirements.GetValueOrDefault(requirement)?.Release ?? [];

    private static RefusedException Unreadable(IReadOnlyList<Model.Violation> violations) =>
        new(Refused.Unusable, "PLAN_UNREADABLE", "the plan cannot be used; nothing was put on record", violations);

    private static RuleSetRow Row(RuleSets.RuleSet set)
    {
        var text = new RuleSetText { Id = set.Id };
        text.Files.AddRange(set.Files.Files.Select(file => new RuleSetTextFile { Name = file.Name, Text = file.Text }));
        return new RuleSetRow { Digest = set.Digest, Id = set.Id, Text = text.ToByteArray() };
    }
}
