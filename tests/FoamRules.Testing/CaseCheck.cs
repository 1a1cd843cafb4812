using FoamRules.Model;

namespace FoamRules.Testing;

/// <summary>Holds a report against what a case expects; the same for every door.</summary>
public static class CaseCheck
{
    /// <summary>What is wrong, in a sentence; null where the report is as expected.</summary>
    public static string? Mismatch(Case expected, Report report)
    {
        var judgement = report.Judgements.SingleOrDefault(one => one.Requirement == expected.Requirement
            && (one.Subject.Id == expected.SubjectId || (one.Outcome == Outcome.NotApplicable && one.Subject.Kind == SubjectKind.Plan)));
        if (judgement is null)
        {
            var subjects = report.Judgements.Where(one => one.Requirement == expected.Requirement).Select(one => $"`{one.Subject.Id}`");
            return $"{expected}: no judgement on `{expected.SubjectId}`; there are some on {string.Join(", ", subjects)}";
        }

        var finding = report.Findings.SingleOrDefault(one => one.Requirement == expected.Requirement && one.Subject == judgement.Subject);
        if (judgement.Outcome != expected.Outcome || judgement.Severity != expected.Severity)
        {
            return $"{expected}: expected {expected.Outcome} {expected.Severity}, found {judgement.Outcome} {judgement.Severity}; {finding?.Found}{judgement.Reason} missing: {string.Join(", ", finding?.Missing ?? [])}";
        }

        if (finding is { Outcome: Outcome.Undetermined, Missing.IsEmpty: true } && !finding.Found.Contains("number outside", StringComparison.Ordinal) && expected.Covers == "missing")
        {
            return $"{expected}: undetermined, but no field is named as missing";
        }

        if (expected.Found is { } words && finding?.Found.Contains(words, StringComparison.Ordinal) is not true)
        {
            return $"{expected}: expected `{words}` in `{finding?.Found}`";
        }

        if (expected.Remedy is { } remedy && finding?.Remedy.Contains(remedy, StringComparison.Ordinal) is not true)
        {
            return $"{expected}: expected `{remedy}` in the remedy `{finding?.Remedy}`";
        }

        return null;
    }
}
