using System.Collections.Immutable;
using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>For the safety officer: hazard by hazard, the worst first, each finding with its evidence, sources and layers; then the rule sets.</summary>
internal static class SafetyReading
{
    public static ReportView Of(Arrangement at)
    {
        var report = at.Report;
        var findings = report.Findings.ToLookup(finding => finding.Hazard);
        var hazards = report.Hazards.Select(hazard => (hazard.Name, hazard.Because)).Distinct()
            .OrderByDescending(hazard => findings[hazard.Name].Select(finding => (int)finding.Severity).DefaultIfEmpty().Max()).ThenBy(hazard => hazard.Name, StringComparer.Ordinal).ToList();
        // A finding never goes missing because its hazard is not listed.
        var unlisted = report.Findings.Where(finding => !hazards.Exists(hazard => hazard.Name == finding.Hazard)).ToList();
        return Arrangement.View(
            at.Disposition, at.Title, at.Head(),
            [
                .. hazards.Select(hazard => Section(at, at.Words["hazard", ("name", hazard.Name), ("because", hazard.Because)], hazard.Name, findings[hazard.Name])),
                new ReportSection(at.Words["hazard-other"], [.. unlisted.Select(finding => Entry(at, finding))]) { Name = "hazard" },
                .. UnknownEntries.Of(at, int.MaxValue),
                at.Clock(),
                at.Lines("layers", report.RuleSets.Select(set => Layer(at, set))),
                at.Lines("relaxations", report.Relaxations),
                at.Lines("topics-all", report.TopicsNotJudged),
                at.Lines("ask-again", report.AskAgainWhen),
                at.Cautions(),
            ]);
    }

    private static ReportSection Section(Arrangement at, string title, string hazard, IEnumerable<Finding> findings)
    {
        var asked = at.Report.Hazards.Where(one => one.Name == hazard).SelectMany(one => one.Asks.Select(id => (one.Step, id))).ToHashSet();
        var met = at.Report.Judgements.Where(judgement => judgement.Outcome == Outcome.Met && asked.Contains((judgement.Subject, judgement.Requirement)))
            .GroupBy(judgement => judgement.Requirement).Select(same => $"{same.Key} ({string.Join(", ", same.Select(judgement => at.Words.Of(judgement.Subject)))})").ToList();
        ImmutableArray<ReportEntry> holds = met.Count > 0 ? [new ReportEntry(at.Words["hazard-met", ("requirements", string.Join(at.Words.Semicolon, met))])] : [];
        return new ReportSection(title, [.. findings.OrderByDescending(finding => finding.Severity).Select(finding => Entry(at, finding)), .. holds]) { Name = "hazard" };
    }

    private static ReportEntry Entry(Arrangement at, Finding finding)
    {
        var full = FindingEntries.Full(at, finding, sources: true);
        var evidence = FindingEntries.Evidence(at, finding);
        return FindingEntries.Marked(finding, new ReportEntry($"{at.Words.Of(finding.Severity).ToUpperInvariant()} · {full.Text}", [.. full.Details.Take(1), .. evidence.Text.Length > 0 ? [evidence] : Array.Empty<ReportDetail>(), .. full.Details.Skip(1)]));
    }

    private static string Layer(Arrangement at, RuleSetUsed set)
    {
        var days = (set.EffectiveFrom, set.EffectiveUntil) switch
        {
            ("", "") => "",
            (var from, "") => $", {at.Words["layer-from", ("day", from)]}",
            ("", var until) => $", {at.Words["layer-until", ("day", until)]}",
            var (from, until) => $", {at.Words["layer-from", ("day", from)]}, {at.Words["layer-until", ("day", until)]}",
        };
        var draft = set.Status == RuleSetStatus.Draft ? $", {at.Words["draft"]}" : "";
        return $"{set.Id} {set.Version}{at.Words.Colon}{set.Title}{draft}{days}{at.Words.Semicolon}SHA-256 {set.Digest[..Math.Min(12, set.Digest.Length)]}";
    }
}
