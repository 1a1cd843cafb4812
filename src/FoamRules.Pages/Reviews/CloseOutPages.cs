using FoamRules.Contracts.V1;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace FoamRules.Pages.Reviews;

/// <summary>The foam as built: a form with what was measured, and the job certificate that comes of it.</summary>
internal static class CloseOutPages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/reviews/{id}/close-out", (string id, HttpContext http, PageRenderer renderer) => Show(http, renderer, id, null, null, null));
        pages.MapPost("/reviews/{id}/close-out", Posted);
        pages.MapGet("/reviews/{id}/certificate", Certificate);
    }

    private static async Task<IResult> Posted(string id, HttpContext http, PageRenderer renderer)
    {
        var words = PageContext.Of(http).Words;
        var (sent, refused) = await SentForm.Read(http, words, id).ConfigureAwait(false);
        if (sent is null)
        {
            return await Show(http, renderer, id, null, null, refused).ConfigureAwait(false);
        }

        var (sheet, review, trouble) = ReviewDoor.WhyNot(http, "CloseOut") is { } not ? (null, null, not) : await Sheet(http, id).ConfigureAwait(false);
        if (sheet is null)
        {
            return await Show(http, renderer, id, sent, null, trouble).ConfigureAwait(false);
        }

        if (sent["shown"] != $"{review!.ShownSequence}")
        {
            return await Show(http, renderer, id, null, null, new Trouble(StatusCodes.Status409Conflict, "REVISION_CHANGED", "", [])).ConfigureAwait(false);
        }

        var plan = sheet.Answered(name => sent[name], words, out var wrong);
        ReadingRows.Date(plan, area => sheet.Plan.Areas[area].Readings.Count, name => sent[name]);
        // Judged when it is put on record, not when the work was last checked.
        plan.JudgedAt = null;
        if (wrong.Count > 0)
        {
            return await Show(http, renderer, id, sent, sheet, new Trouble(StatusCodes.Status422UnprocessableEntity, "REQUEST_UNREADABLE", "", wrong)).ConfigureAwait(false);
        }

        var request = new CloseOutRequest { IdempotencyKey = sent.Key, ReviewId = id, SeenVersion = sent.Seen, Plan = plan };
        (var done, trouble) = await ReviewDoor.Ask(http, "CloseOut", request, (desk, caller) => desk.CloseOut(request, caller, http.RequestAborted)).ConfigureAwait(false);
        return done is null
            ? await Show(http, renderer, id, sent, sheet, trouble).ConfigureAwait(false)
            : SeeOther.To($"/reviews/{id}/certificate{QueryString.Create("sent", sent.Key)}");
    }

    private static async Task<IResult> Show(HttpContext http, PageRenderer renderer, string id, SentForm? sent, FactSheet? sheet, Trouble? trouble)
    {
        var page = PageContext.Of(http);
        if (ReviewDoor.WhyNot(http, "CloseOut") is { } not)
        {
            return await ReviewPages.Refused(http, renderer, page, not).ConfigureAwait(false);
        }

        var (current, review, why) = await Sheet(http, id).ConfigureAwait(false);
        return current is null
            ? await ReviewPages.Refused(http, renderer, page, trouble ?? why!).ConfigureAwait(false)
            : await renderer.Answer<CloseOutView>(page, new()
            {
                [nameof(CloseOutView.Review)] = review,
                [nameof(CloseOutView.Sheet)] = sheet ?? current,
                [nameof(CloseOutView.Sent)] = sent,
                [nameof(CloseOutView.Trouble)] = trouble,
            }, trouble?.Status ?? StatusCodes.Status200OK).ConfigureAwait(false);
    }

    private static async Task<(FactSheet? Sheet, ReviewRecord? Review, Trouble? Trouble)> Sheet(HttpContext http, string id)
    {
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        (review, trouble) = review is null ? (null, trouble) : await ReviewReader.Get(http, id, ReviewReader.CarriedOut(review)).ConfigureAwait(false);
        return review is null ? (null, null, trouble)
            : (CloseOutFacts.Of(review.Plan, review.Report.Units, http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow()), review, null);
    }

    private static async Task<IResult> Certificate(string id, HttpContext http, PageRenderer renderer)
    {
        var page = PageContext.Of(http);
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        trouble ??= review!.Certificate is null ? new Trouble(StatusCodes.Status409Conflict, "NOT_CLOSED_OUT", "", []) : null;
        return trouble is not null
            ? await ReviewPages.Refused(http, renderer, page, trouble).ConfigureAwait(false)
            : await renderer.Answer<CertificateView>(page, new() { [nameof(CertificateView.Review)] = review, [nameof(CertificateView.Sent)] = http.Request.Query["sent"].ToString() }).ConfigureAwait(false);
    }
}
