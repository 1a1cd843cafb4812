using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using Microsoft.EntityFrameworkCore;

namespace FoamRules.Records.Reviews;

/// <summary>Lists and searches reviews, the newest first.</summary>
/// <param name="store">The record.</param>
public sealed class ReviewList(RecordStore store)
{
    private const int UsualPage = 50;
    private const int Hold = (int)Severity.HoldPoint;

    /// <summary>One page.</summary>
    /// <exception cref="RefusedException">The page token is none.</exception>
    public Task<ListReviewsResponse> Find(ListReviewsRequest request, CancellationToken cancellation) => store.Read(async context =>
    {
        var now = Times.Microseconds(store.Now());
        var size = request.PageSize == 0 ? UsualPage : request.PageSize;
        var rows = await Matching(context.Reviews.AsNoTracking(), request, now)
            .OrderByDescending(row => row.FirstSequence).Take(size + 1)
            .Select(row => new { row.FirstSequence, row.Summary, OpenHolds = row.Findings.Count(finding => finding.Severity == Hold && finding.ReleasedUntil <= now) })
            .ToListAsync(cancellation).ConfigureAwait(false);
        var response = new ListReviewsResponse();
        foreach (var row in rows.Take(size))
        {
            var summary = ReviewSummary.Parser.ParseFrom(row.Summary);
            summary.OpenHolds = row.OpenHolds;
            response.Reviews.Add(summary);
        }

        response.NextPageToken = rows.Count > size ? rows[size - 1].FirstSequence.ToString(CultureInfo.InvariantCulture) : "";
        return response;
    });

    private static IQueryable<ReviewRow> Matching(IQueryable<ReviewRow> rows, ListReviewsRequest request, long now)
    {
        if (request.PageToken.Length > 0)
        {
            var before = long.TryParse(request.PageToken, NumberStyles.None, CultureInfo.InvariantCulture, out var token) ? token
                : throw new RefusedException(Refused.Unusable, "REQUEST_UNREADABLE", "the page token is none of ours",
                    [new Model.Violation("page_token", $"`{request.PageToken}`", "the next_page_token of the page before", "leave it out for the first page")]);
            rows = rows.Where(row => row.FirstSequence < before);
        }

        var text = Projection.Folded(request.Text.Trim());
        rows = text.Length == 0 ? rows : rows.Where(row => row.SearchText.Contains(text));
        var (from, until) = (Projection.Day(request.WorkDateFrom), Projection.Day(request.WorkDateUntil));
        rows = from is null ? rows : rows.Where(row => row.WorkDate >= from);
        rows = until is null ? rows : rows.Where(row => row.WorkDate <= until);
        rows = request.Disposition == Disposition.Unspecified ? rows : rows.Where(row => row.Disposition == (int)request.Disposition);
        rows = request.Requirement.Length == 0 ? rows : rows.Where(row => row.Findings.Any(finding => finding.Requirement == request.Requirement));
        return request.HasOpenHolds
            ? rows.Where(row => row.Findings.Any(finding => finding.Severity == Hold && finding.ReleasedUntil <= now) == request.OpenHolds)
            : rows;
    }
}
