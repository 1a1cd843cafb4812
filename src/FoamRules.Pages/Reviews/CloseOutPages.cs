using FoamRules.Contracts.V1;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>The foam as built: a form with what was measured, and the job certificate that comes of it.</summary>
internal sealed class CloseOutPages() : FactPage<CloseOutView>("close-out", "CloseOut")
{
    public static void MapAll(IEndpointRouteBuilder pages)
    {
        new CloseOutPages().Map(pages);
        pages.MapGet("/reviews/{id}/certificate", Certificate);
    }

    protected override async Task<(ReviewRecord? Review, Trouble? Trouble)> Begin(HttpContext http, string id)
    {
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        return review is null ? (null, trouble) : await ReviewReader.Get(http, id, ReviewReader.CarriedOut(review)).ConfigureAwait(false);
    }

    protected override FactSheet Ask(HttpContext http, ReviewRecord review, DateTimeOffset now) => CloseOutFacts.Of(review.Plan, review.Report.Units, now);

    protected override int ReadingsBefore(WorkArea area) => area.Readings.Count;

    protected override async Task<(string? Next, Trouble? Trouble)> Act(HttpContext http, SentForm sent, Plan plan, List<Violation> wrong)
    {
        if (wrong.Count > 0)
        {
            return (null, Unreadable(wrong));
        }

        // Judged when it is put on record, not when the work was last checked.
        plan.JudgedAt = null;
        var request = new CloseOutRequest { IdempotencyKey = sent.Key, ReviewId = sent.Id, SeenVersion = sent.Seen, Plan = plan };
        var (done, trouble) = await ReviewDoor.Ask(http, "CloseOut", request, (desk, caller) => desk.CloseOut(request, caller, http.RequestAborted)).ConfigureAwait(false);
        return (done is null ? null : $"/reviews/{sent.Id}/certificate{QueryString.Create("sent", sent.Key)}", trouble);
    }

    private static async Task<IResult> Certificate(string id, HttpContext http, PageRenderer renderer)
    {
        var page = PageContext.Of(http);
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        if (review?.Certificate is { } certificate)
        {
            (review, trouble) = await ReviewReader.Get(http, id, certificate.ClosedOut.Sequence).ConfigureAwait(false);
        }
        else
        {
            trouble ??= new Trouble(StatusCodes.Status409Conflict, "NOT_CLOSED_OUT", null, []);
        }

        return trouble is not null
            ? await ReviewPages.Refused(http, renderer, page, trouble).ConfigureAwait(false)
            : await renderer.Answer<CertificateView>(page, new()
            {
                [nameof(CertificateView.Review)] = review,
                [nameof(CertificateView.Stored)] = StoredReport.Of(http.RequestServices.GetRequiredService<PlanDesk>(), review!.Plan, review.Report, page.Words, http.RequestAborted),
                [nameof(CertificateView.Sent)] = http.Request.Query["sent"].ToString(),
            }).ConfigureAwait(false);
    }
}
