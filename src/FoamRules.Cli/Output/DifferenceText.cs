using System.Globalization;
using System.Text;
using FoamRules.Model;
using FoamRules.Readings;
using FoamRules.Rules.Catalogue;
using FoamRules.RuleSets;

namespace FoamRules.Cli.Output;

/// <summary>What differs between rule sets, as a person reads it.</summary>
internal static class DifferenceText
{
    /// <summary>What a draft changes against the rule sets below it.</summary>
    public static string Draft(RuleSetSummary set, IReadOnlyList<Difference> differences, IReadOnlyList<string> relaxations)
    {
        var output = new StringBuilder();
        Paragraph.Write(output, "", $"{set.Id} {set.Version} loads: {set.Title}; {RuleSetWords.Of(set.Level)}, above {set.Above ?? "nothing"}");
        Paragraph.Write(output, "", string.Create(CultureInfo.InvariantCulture, $"{set.Requirements} requirements, {set.Limits} limits; {Counted(differences)}"));
        output.AppendLine();
        Differences(output, differences);
        if (relaxations.Count > 0)
        {
            output.AppendLine("RELAXATIONS IN FORCE");
            foreach (var relaxation in relaxations)
            {
                Paragraph.Write(output, "  ", relaxation);
            }
        }

        return output.ToString();
    }

    /// <summary>What differs between two choices of rule sets, and for plans.</summary>
    public static string Comparison(RuleBook before, RuleBook after, IReadOnlyList<Difference> differences, IReadOnlyList<PlanComparison> plans)
    {
        var output = new StringBuilder();
        Paragraph.Write(output, "before  ", Named(before));
        Paragraph.Write(output, "after   ", Named(after));
        Paragraph.Write(output, "        ", Counted(differences));
        output.AppendLine();
        Differences(output, differences);
        foreach (var plan in plans)
        {
            Plan(output, plan);
        }

        return output.ToString();
    }

    private static string Named(RuleBook book) => string.Join(", ", book.Layers.Select(layer => $"{layer.Id} {layer.Version}"));

    private static string Counted(IReadOnlyList<Difference> differences) => differences.Count == 0
        ? "nothing differs"
        : string.Join(", ", differences.GroupBy(one => one.Kind).OrderBy(group => group.Key).Select(group => string.Create(CultureInfo.InvariantCulture, $"{group.Count()} {Verb(group.Key, group.Count())}")));

    private static string Verb(DifferenceKind kind, int count) => count == 1 ? Word(kind) : Word(kind)[..^1];

    private static string Word(DifferenceKind kind) => kind.ToString().ToLowerInvariant();

    private static void Differences(StringBuilder output, IReadOnlyList<Difference> differences)
    {
        foreach (var requirement in differences.GroupBy(one => one.Requirement))
        {
            output.AppendLine(requirement.Key);
            foreach (var one in requirement)
            {
                var what = one.Aspect == DifferenceAspect.Requirement ? "" : $"{one.Aspect.ToString().ToLowerInvariant()} {one.Name}".Trim() + ": ";
                Paragraph.Write(output, $"  {Word(one.Kind),-9} ", what + FromTo(one.Before, one.After));
            }

            output.AppendLine();
        }
    }

    private static void Plan(StringBuilder output, PlanComparison plan)
    {
        var same = plan.Before == plan.After ? $"{Disposition(plan.After)} by both" : $"{Disposition(plan.Before)} → {Disposition(plan.After)}";
        Paragraph.Write(output, "", $"{plan.PlanName}: {same}{(plan.Changes.IsEmpty ? "; no finding differs" : "")}");
        foreach (var change in plan.Changes)
        {
            Paragraph.Write(output, $"  {Word(change.Kind),-9} ", $"{ReportNames.Of(change.Subject)} · {change.Requirement}");
            if (change.Before is { } before)
            {
                Paragraph.Write(output, "            before: ", State(before));
            }

            if (change.After is { } after)
            {
                Paragraph.Write(output, "            after:  ", State(after));
            }
        }

        output.AppendLine();
    }

    private static string State(FindingState state) => $"{ReportNames.Of(state.Severity)}: {state.Found}";

    private static string Disposition(Disposition disposition) => disposition == Model.Disposition.ProceedWithCautions ? "PROCEED WITH CAUTIONS" : disposition.ToString().ToUpperInvariant();

    private static string FromTo(string before, string after) => (before.Length, after.Length) switch
    {
        (0, _) => after,
        (_, 0) => before,
        _ => $"{before} → {after}",
    };
}
