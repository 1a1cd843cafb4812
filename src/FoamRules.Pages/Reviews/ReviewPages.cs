using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using FoamRules.Records.Reviews;
using FoamRules.Records.Store;
using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Reader = FoamRules.Readings.Reader;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>Reviews: the list, one review, and the acts on it that are forms of its page.</summary>
internal static class ReviewPages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/reviews", List);
        pages.MapPost("/reviews", Submit);
        pages.MapGet("/reviews/{id}", (string id, HttpContext http, PageRenderer renderer) => Show(http, renderer, PageContext.Of(http), id, null, null));
        Act(pages, "comment", "AddComment", form => new AddCommentRequest { IdempotencyKey = form.Key, ReviewId = form.Id, Text = form["text"] },
            async (desk, request, caller, cancellation) => (await desk.Comment(request, caller, cancellation).ConfigureAwait(false)).Receipt);
        Act(pages, "note", "NoteCaution", form => new NoteCautionRequest { IdempotencyKey = form.Key, ReviewId = form.Id, Requirement = form["requirement"], Subject = form.Subject, Remark = form["remark"] },
            async (desk, request, caller, cancellation) => (await desk.Note(request, caller, cancellation).ConfigureAwait(false)).Receipt);
        Act(pages, "release", "ReleaseHold", Release, async (desk, request, caller, cancellation) => (await desk.Release(request, caller, cancellation).ConfigureAwait(false)).Receipt);
        Act(pages, "sign-off", "SignOff", form => new SignOffRequest { IdempotencyKey = form.Key, ReviewId = form.Id, SeenVersion = form.Seen, Remark = form["remark"] },
            async (desk, request, caller, cancellation) => (await desk.SignOff(request, caller, cancellation).ConfigureAwait(false)).Receipt);
        Act(pages, "revise", "RevisePlan", form => new RevisePlanRequest { IdempotencyKey = form.Key, ReviewId = form.Id, SeenVersion = form.Seen, Plan = form.Plan, Why = form["why"] },
            async (desk, request, caller, cancellation) => (await desk.Revise(request, caller, cancellation).ConfigureAwait(false)).Receipt);
    }

    /// <summary>A key that makes a repeat of a form harmless.</summary>
    public static string NewKey() => Guid.CreateVersion7().ToString("N");

    /// <summary>A page that says why something cannot be shown or done; whoever has not said who they are is asked that first.</summary>
    public static async Task<IResult> Refused(HttpContext http, PageRenderer renderer, PageContext page, Trouble trouble) =>
        trouble.Reason == "CALLER_NOT_STATED" && HttpMethods.IsGet(http.Request.Method)
            ? Results.Redirect(WhoPage.From(http.Request.Path + http.Request.QueryString))
            : await renderer.Answer<TroubleView>(page, new() { [nameof(TroubleView.Trouble)] = trouble }, trouble.Status).ConfigureAwait(false);

    /// <summary>The page of a review.</summary>
    /// <param name="http">The request.</param>
    /// <param name="renderer">Draws it.</param>
    /// <param name="page">The context.</param>
    /// <param name="id">The review.</param>
    /// <param name="trouble">Why a form of it was refused; null: none was.</param>
    /// <param name="sent">That form; null: none was sent.</param>
    public static async Task<IResult> Show(HttpContext http, PageRenderer renderer, PageContext page, string id, Trouble? trouble, SentForm? sent)
    {
        var asked = HttpMethods.IsGet(http.Request.Method) ? http.Request.Query : QueryCollection.Empty;
        var (review, why) = await ReviewReader.Get(http, id, long.TryParse(asked["at"], NumberStyles.None, CultureInfo.InvariantCulture, out var at) ? at : 0).ConfigureAwait(false);
        if (review is null)
        {
            return await Refused(http, renderer, page, trouble ?? why!).ConfigureAwait(false);
        }

        var stored = StoredReport.Of(http.RequestServices.GetRequiredService<PlanDesk>(), review.Plan, review.Report, page.Words, http.RequestAborted);
        var reader = ReportQuestion.Readers.Where(pair => pair.Name == asked["for"]).Select(pair => (Reader?)pair.Reader).FirstOrDefault() ?? stored.Answer.UsualReader;
        return await renderer.Answer<ReviewView>(page, new()
        {
            [nameof(ReviewView.Review)] = review,
            [nameof(ReviewView.Stored)] = stored,
            [nameof(ReviewView.Reader)] = reader,
            [nameof(ReviewView.All)] = asked["all"].Count > 0,
            [nameof(ReviewView.Done)] = long.TryParse(asked["done"], NumberStyles.None, CultureInfo.InvariantCulture, out var done) ? done : 0,
            [nameof(ReviewView.Caller)] = WhoCalls.Of(http)!,
            [nameof(ReviewView.Trouble)] = trouble,
            [nameof(ReviewView.Sent)] = sent,
        }, trouble?.Status ?? StatusCodes.Status200OK).ConfigureAwait(false);
    }

    private static async Task<IResult> List(HttpContext http, PageRenderer renderer)
    {
        var page = PageContext.Of(http);
        var search = ReviewSearch.Read(http.Request.Query);
        var (found, trouble) = await ReviewDoor.Ask(http, "ListReviews", search.Request, (_, _) =>
            new ReviewList(http.RequestServices.GetRequiredService<RecordStore>()).Find(search.Request, http.RequestAborted)).ConfigureAwait(false);
        return found is null && trouble!.Status != StatusCodes.Status422UnprocessableEntity
            ? await Refused(http, renderer, page, trouble).ConfigureAwait(false)
            : await renderer.Answer<ReviewListView>(page, new() { [nameof(ReviewListView.Search)] = search, [nameof(ReviewListView.Found)] = found, [nameof(ReviewListView.Trouble)] = trouble },
                trouble?.Status ?? StatusCodes.Status200OK).ConfigureAwait(false);
    }

    private static async Task<IResult> Submit(HttpContext http, PageRenderer renderer)
    {
        var page = PageContext.Of(http);
        var (sent, refused) = await SentForm.Read(http, page.Words, "").ConfigureAwait(false);
        if (sent is null)
        {
            return await Refused(http, renderer, page, refused!).ConfigureAwait(false);
        }

        var plan = sent.Plan;
        var trouble = ReviewDoor.WhyNot(http, "SubmitPlan") ?? sent.Unreadable;
        if (trouble is null)
        {
            var request = new SubmitPlanRequest { IdempotencyKey = sent.Key, Plan = plan };
            (var done, trouble) = await ReviewDoor.Ask(http, "SubmitPlan", request, (desk, caller) => desk.Submit(request, caller, http.RequestAborted)).ConfigureAwait(false);
            if (done is not null)
            {
                return SeeOther.To($"/reviews/{done.Receipt.ReviewId}?done={done.Receipt.Sequence}");
            }
        }

        return await renderer.Answer<SubmitView>(page, new() { [nameof(SubmitView.Trouble)] = trouble, [nameof(SubmitView.PlanText)] = sent["plan"], [nameof(SubmitView.Key)] = trouble!.KeyIsUsed ? NewKey() : sent.Key }, trouble.Status).ConfigureAwait(false);
    }

    private static void Act<TRequest>(IEndpointRouteBuilder pages, string name, string method, Func<SentForm, TRequest> request, Func<ReviewDesk, TRequest, Records.Caller, CancellationToken, Task<Receipt>> act)
        where TRequest : IMessage =>
        pages.MapPost($"/reviews/{{id}}/{name}", async (string id, HttpContext http, PageRenderer renderer) =>
        {
            var page = PageContext.Of(http);
            var (sent, refused) = await SentForm.Read(http, page.Words, id).ConfigureAwait(false);
            if (sent is null)
            {
                return await Refused(http, renderer, page, refused!).ConfigureAwait(false);
            }

            var asked = request(sent);
            var trouble = ReviewDoor.WhyNot(http, method) ?? sent.Unreadable;
            if (trouble is null)
            {
                (var receipt, trouble) = await ReviewDoor.Ask(http, method, asked, (desk, caller) => act(desk, asked, caller, http.RequestAborted)).ConfigureAwait(false);
                if (receipt is not null)
                {
                    return SeeOther.To($"/reviews/{id}?done={receipt.Sequence}");
                }
            }

            return await Show(http, renderer, page, id, trouble, sent with { Form = $"{name}{sent.About}" }).ConfigureAwait(false);
        });

    private static ReleaseHoldRequest Release(SentForm form)
    {
        var request = new ReleaseHoldRequest
        {
            IdempotencyKey = form.Key,
            ReviewId = form.Id,
            SeenVersion = form.Seen,
            Requirement = form["requirement"],
            Subject = form.Subject,
            ActingAs = form["acting_as"],
            DecidedBy = form["decided_by"],
            Reference = form["reference"],
            Why = form["why"],
        };
        if (form["until"] is { Length: > 0 } until)
        {
            if (FactText.Instant(until, form["time_zone"]) is { } at)
            {
                request.Until = Timestamp.FromDateTimeOffset(at);
            }
            else
            {
                form.Wrong.Add(new Violation("until", $"`{until}`", form.Words["typed-instant"], form.Words["typed-remedy"]));
            }
        }

        return request;
    }
}
