using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>For the office: the scope, what stands against it, what to ask, what must be in the price, and the days.</summary>
internal static class OfficeReading
{
    private const int MostQuestions = 12;

    public static ReportView Of(Arrangement at)
    {
        var against = at.Report.Findings.Where(finding => finding is { Outcome: not Outcome.Undetermined, Severity: >= Severity.Caution }).ToList();
        return Arrangement.View(
            at.Disposition, at.Title, [at.Report.Summary, at.Responsible, .. at.Report.RuleSetNotes.Select(note => at.Words["rule-set-note", ("note", note)]), .. at.Report.LanguageNotes],
            [
                at.Lines("scope", Scope(at)),
                new ReportSection(at.Words["against"], [.. against.Select(finding => FindingEntries.Marked(finding, new ReportEntry(
                    $"{at.Words.Of(finding.Severity)}{at.Words.Colon}{at.Words.Of(finding.Subject)}{at.Words.Colon}{finding.Found} [{finding.Requirement}]", new ReportDetail(at.Words["label-remedy"], finding.Remedy))))]) { Name = "against" },
                .. UnknownEntries.Of(at, at.All ? int.MaxValue : MostQuestions),
                PriceEntries.Of(at),
                at.Clock(),
                at.Cautions(),
            ]);
    }

    // What was judged, kind by kind, and by which rules.
    private static IEnumerable<string> Scope(Arrangement at)
    {
        var subjects = at.Report.Judgements.Select(judgement => judgement.Subject).Distinct().ToLookup(subject => subject.Kind, subject => subject.Id);
        foreach (var (kind, key) in new[] { (SubjectKind.Work, "scope-work"), (SubjectKind.Area, "scope-areas"), (SubjectKind.Product, "scope-products") })
        {
            if (subjects[kind].Any())
            {
                yield return at.Words[key, ("names", string.Join(", ", subjects[kind].Order(StringComparer.Ordinal)))];
            }
        }

        yield return at.Words["scope-rules", ("names", string.Join(at.Words.Semicolon, at.Report.RuleSets.Select(set => set.Title.Length > 0 ? set.Title : set.Id)))];
        if (at.Report.TopicsNotJudged.Length > 0)
        {
            yield return at.Words["scope-not-judged", ("topics", string.Join(", ", at.Report.TopicsNotJudged.Select(topic => topic.Split(':')[0])))];
        }
    }
}
