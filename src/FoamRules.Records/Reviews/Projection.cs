using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Google.Protobuf;

namespace FoamRules.Records.Reviews;

/// <summary>What can be listed and searched of a review, made from what stands of it.</summary>
internal static class Projection
{
    public static ReviewRow Of(ReviewState state)
    {
        var (first, last) = (state.Acts[0].Receipt, state.Last!);
        var row = new ReviewRow
        {
            Id = first.ReviewId,
            FirstSequence = first.Sequence,
            Version = state.Version,
            Summary = Summary(state).ToByteArray(),
            SearchText = SearchText(last.Plan),
            WorkDate = Day(last.Plan.WorkDate),
            Disposition = (int)last.Report.Disposition,
        };
        row.Findings.AddRange(state.Standing().Select((finding, place) => new FindingRow
        {
            ReviewId = row.Id,
            Place = place,
            Requirement = finding.Requirement,
            Severity = (int)finding.Severity,
            ReleasedUntil = state.Releases.Where(release => release.Finding.Equals(finding))
                .Select(release => Times.Microseconds(release.Until.ToDateTimeOffset())).DefaultIfEmpty().Max(),
        }));
        return row;
    }

    /// <summary>Text as it is searched in.</summary>
    public static string Folded(string text) => text.ToLowerInvariant();

    /// <summary>A day, where one is given.</summary>
    public static DateOnly? Day(string date) => date.Length == 0 ? null : DateOnly.ParseExact(date, "yyyy-MM-dd", CultureInfo.InvariantCulture);

    /// <summary>The review in a line, without its open holds, which change as time goes by.</summary>
    public static ReviewSummary Summary(ReviewState state) => new()
    {
        ReviewId = state.Acts[0].Receipt.ReviewId,
        Version = state.Version,
        PlanName = state.Last!.Plan.Name,
        WorkDate = state.Last.Plan.WorkDate,
        Revision = state.Revisions[^1].Number,
        SignedRevision = state.Signed?.Revision.Number ?? 0,
        Stage = state.Last.Report.Stage,
        Disposition = state.Last.Report.Disposition,
        OpenStops = state.Standing().Count(finding => finding.Severity == Severity.StopWork),
        LastPreStartAt = state.PreStarts.Count == 0 ? null : state.PreStarts[^1].Receipt.At,
        ClosedOut = state.AsBuilt is not null,
        SubmittedAt = state.Acts[0].Receipt.At,
    };

    private static string SearchText(Plan plan) =>
        Folded(string.Join('\n', plan.Name, plan.Jurisdiction?.Authority, plan.Jurisdiction?.Permit, plan.ResponsiblePerson));
}
