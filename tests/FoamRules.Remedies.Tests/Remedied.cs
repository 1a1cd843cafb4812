using FoamRules.Exchange;
using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Remedies.Tests;

/// <summary>A plan, its report with what was tried, and what comes of writing it into the text.</summary>
internal sealed record Remedied(string Text, PlanRead Read, Report Report)
{
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    public RemedyReport Remedies => Report.Remedies!;

    public static Remedied Of(string text)
    {
        var plan = Checked(text);
        return plan with { Report = new RemedyFinder(Repository.Engine).Find(plan.Read, plan.Report, new CheckOptions(plan.Read.Digest)) };
    }

    /// <summary>What is found for one finding; null where there is none, or where the plan has no such finding.</summary>
    public TriedRemedy? For(string requirement, string subject) =>
        Report.Findings.FirstOrDefault(finding => finding.Requirement == requirement && finding.Subject.Id == subject) is { } finding
            ? new RemedyFinder(Repository.Engine).FindFor(Read, Report, finding, new CheckOptions(Read.Digest))
            : null;

    /// <summary>A plan, checked; nothing is tried.</summary>
    public static Remedied Checked(string text)
    {
        var read = PlanReader.ReadText(text, null, Now);
        Assert.True(read.Plan is not null, string.Join(Environment.NewLine, read.Violations));
        return new Remedied(text, read, Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!);
    }

    public static string Example(string name) => File.ReadAllText(Repository.PathOf("shared", "plans", name));

    /// <summary>The text with changes written into it.</summary>
    public string With(IEnumerable<FieldChange> changes) => changes.Aggregate(Text, (text, change) => YamlEdit.Set(text, change.Path, change.Write));

    /// <summary>The plan in a text, checked.</summary>
    public static Report Check(string text) => Checked(text).Report;

    /// <summary>What is wrong with a change, if anything: only choices change, and what tells of them is only taken out.</summary>
    public IEnumerable<string> NoChoice(IEnumerable<FieldChange> changes)
    {
        var all = changes.ToList();
        var falling = all.Select(change => PlanSpot.Find(Read.Message!, change.Path)!).Where(spot => spot.IsChoice).SelectMany(spot => spot.FallsWithIt()).ToHashSet();
        return all.Where(change => !PlanSpot.Find(Read.Message!, change.Path)!.IsChoice && !(change.Write == "null" && falling.Contains(change.Path))).Select(change => change.Path);
    }
}
