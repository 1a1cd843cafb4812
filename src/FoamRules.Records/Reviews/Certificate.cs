using FoamRules.Contracts.V1;

namespace FoamRules.Records.Reviews;

/// <summary>The certificate of a job that is closed out, made from the record.</summary>
internal static class Certificate
{
    /// <summary>The certificate; the review must be closed out.</summary>
    public static CompletionCertificate Of(ReviewState state, DateTimeOffset now)
    {
        var (receipt, plan, report) = state.AsBuilt!;
        var certificate = new CompletionCertificate
        {
            PlanName = plan.Name,
            Jurisdiction = plan.Jurisdiction,
            ResponsiblePerson = plan.ResponsiblePerson,
            WorkDate = plan.WorkDate,
            SignedOff = state.Signed?.Receipt,
            ClosedOut = receipt,
            Disposition = report.Disposition,
            PlanDigest = report.PlanDigest,
        };
        certificate.Open.AddRange(report.Findings.Where(finding => finding.Severity == Severity.StopWork).Concat(state.Open(report.Findings, now)));
        certificate.Releases.AddRange(report.Findings.Select(finding => state.ReleaseOf(finding, now)).OfType<HoldRelease>());
        certificate.ReentryReleases.AddRange(state.Reentries.Where(release => release.OvertakenBy == 0));
        certificate.RuleSets.AddRange(report.RuleSets);
        var lots = plan.Products.ToLookup(product => product.Id, product => product.Lots.Select(lot => lot.Id));
        certificate.Work.AddRange(plan.Work.Select(work => new CertifiedWork
        {
            Id = work.Id,
            Name = work.Name,
            Product = work.Product,
            Lots = { lots[work.Product].SelectMany(ids => ids) },
            Numbers = { report.Numbers.Where(number => number.Subject.Kind == SubjectKind.Work && number.Subject.Id == work.Id) },
        }));
        return certificate;
    }
}
