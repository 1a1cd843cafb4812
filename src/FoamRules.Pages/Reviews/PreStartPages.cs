using System.Globalization;
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

/// <summary>The check on site before the start: a form for a phone, and its answer.</summary>
internal static class PreStartPages
{
    /// <summary>The input for what has changed since the last check; 0 is nothing.</summary>
    public const string Changes = "changes";

    /// <summary>The input for the longest break since, in minutes.</summary>
    public const string Break = "break";

    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/reviews/{id}/pre-start", (string id, HttpContext http, PageRenderer renderer) => Show(http, renderer, id, null, null, null));
        pages.MapPost("/reviews/{id}/pre-start", Posted);
        pages.MapGet("/reviews/{id}/pre-start/{sequence:long}", Answer);
    }

    private static async Task<IResult> Posted(string id, HttpContext http, PageRenderer renderer)
    {
        var words = PageContext.Of(http).Words;
        var (sent, refused) = await SentForm.Read(http, words, id).ConfigureAwait(false);
        if (sent is null)
        {
            return await Show(http, renderer, id, null, null, refused).ConfigureAwait(false);
        }

        if (ReviewDoor.WhyNot(http, "CheckPreStart") is { } not)
        {
            return await Show(http, renderer, id, sent, null, not).ConfigureAwait(false);
        }

        var (sheet, review, trouble) = await Sheet(http, id).ConfigureAwait(false);
        if (sheet is null)
        {
            return await Show(http, renderer, id, sent, null, trouble).ConfigureAwait(false);
        }

        if (sent["revision"] != review!.Summary.SignedRevision.ToString(CultureInfo.InvariantCulture))
        {
            // Rows of a form are those of its revision: they are not carried over to another by guess.
            return await Show(http, renderer, id, null, null, new Trouble(StatusCodes.Status409Conflict, "REVISION_CHANGED", "", [])).ConfigureAwait(false);
        }

        var plan = sheet.Answered(name => Typed(sent, name), words, out var wrong);
        ReadingRows.Date(plan, _ => 0, name => sent[name]);
        var request = new CheckPreStartRequest { IdempotencyKey = sent.Key, ReviewId = id, Plan = plan, ChangesSince = ChangesOf(sent), LongestBreak = BreakOf(sent, words, wrong) };
        if (wrong.Count > 0)
        {
            return await Show(http, renderer, id, sent, sheet, new Trouble(StatusCodes.Status422UnprocessableEntity, "REQUEST_UNREADABLE", "", wrong)).ConfigureAwait(false);
        }

        (var done, trouble) = await ReviewDoor.Ask(http, "CheckPreStart", request, (desk, caller) => desk.CheckPreStart(request, caller, http.RequestAborted)).ConfigureAwait(false);
        return done is null
            ? await Show(http, renderer, id, sent, sheet, trouble).ConfigureAwait(false)
            : SeeOther.To($"/reviews/{id}/pre-start/{done.Receipt.Sequence}{QueryString.Create("sent", sent.Key)}");
    }

    private static async Task<IResult> Show(HttpContext http, PageRenderer renderer, string id, SentForm? sent, FactSheet? sheet, Trouble? trouble)
    {
        var page = PageContext.Of(http);
        if (ReviewDoor.WhyNot(http, "CheckPreStart") is { } not)
        {
            return await ReviewPages.Refused(http, renderer, page, not).ConfigureAwait(false);
        }

        var (current, review, why) = await Sheet(http, id).ConfigureAwait(false);
        return current is null
            ? await ReviewPages.Refused(http, renderer, page, trouble ?? why!).ConfigureAwait(false)
            : await renderer.Answer<PreStartView>(page, new()
            {
                [nameof(PreStartView.Review)] = review,
                [nameof(PreStartView.Sheet)] = sheet ?? current,
                [nameof(PreStartView.Sent)] = sent,
                [nameof(PreStartView.Trouble)] = trouble,
            }, trouble?.Status ?? StatusCodes.Status200OK).ConfigureAwait(false);
    }

    private static async Task<(FactSheet? Sheet, ReviewRecord? Review, Trouble? Trouble)> Sheet(HttpContext http, string id)
    {
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        if (review is not null && ReviewReader.Signed(review) == 0)
        {
            return (null, null, new Trouble(StatusCodes.Status409Conflict, "NOT_SIGNED_OFF", "", []));
        }

        if (review is { Summary.ClosedOut: true })
        {
            return (null, null, new Trouble(StatusCodes.Status409Conflict, "CLOSED_OUT", "", []));
        }

        (review, trouble) = review is null ? (null, trouble) : await ReviewReader.Get(http, id, ReviewReader.Signed(review)).ConfigureAwait(false);
        return review is null ? (null, null, trouble)
            : (PreStartFacts.Of(review.Plan, review.Report.Units, http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow()), review, null);
    }

    private static async Task<IResult> Answer(string id, long sequence, HttpContext http, PageRenderer renderer)
    {
        var page = PageContext.Of(http);
        var request = new GetReviewRequest { ReviewId = id, Sequence = sequence };
        var (check, trouble) = await ReviewDoor.Ask(http, "GetReview", request, (desk, _) => desk.PreStartOf(request, http.RequestAborted)).ConfigureAwait(false);
        var (review, why) = check is null ? (null, trouble) : await ReviewReader.Get(http, id, sequence).ConfigureAwait(false);
        return review is null
            ? await ReviewPages.Refused(http, renderer, page, why!).ConfigureAwait(false)
            : await renderer.Answer<PreStartAnswerView>(page, new()
            {
                [nameof(PreStartAnswerView.Check)] = check,
                [nameof(PreStartAnswerView.Review)] = review,
                [nameof(PreStartAnswerView.Stored)] = StoredReport.Of(http.RequestServices.GetRequiredService<PlanDesk>(), review.Plan, review.Report, page.Words, http.RequestAborted),
                [nameof(PreStartAnswerView.Sent)] = http.Request.Query["sent"].ToString(),
            }).ConfigureAwait(false);
    }

    // A name becomes an id of the plan: words stand together.
    private static string Typed(SentForm sent, string name) =>
        name.StartsWith("people[", StringComparison.Ordinal) && name.EndsWith("].id", StringComparison.Ordinal) ? sent[name].Replace(' ', '-') : sent[name];

    // Ticked: what has changed; "nothing" ticked: asked, and nothing has; neither: not known.
    private static ChangeList? ChangesOf(SentForm sent)
    {
        var ticked = sent[Changes].Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return ticked.Length == 0 ? null : new ChangeList
        {
            Changes = { Fact.NamesOf(ReviewEnums.Change).Where(name => ticked.Contains(name.Number.ToString(CultureInfo.InvariantCulture))).Select(name => (Change)name.Number) },
        };
    }

    private static Duration? BreakOf(SentForm sent, PageWords words, List<Violation> wrong)
    {
        if (sent[Break].Length == 0)
        {
            return null;
        }

        if (FactText.Number(sent[Break]) is { } minutes)
        {
            return new Duration { Minutes = minutes };
        }

        wrong.Add(new Violation(Break, $"`{sent[Break]}`", words["typed-number"], words["typed-remedy"]));
        return null;
    }
}
