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
internal sealed class PreStartPages() : FactPage<PreStartView>("pre-start", "CheckPreStart")
{
    /// <summary>The input for what has changed since the last check; 0 is nothing.</summary>
    public const string Changes = "changes";

    /// <summary>The input for the longest break since, in minutes.</summary>
    public const string Break = "break";

    public static void MapAll(IEndpointRouteBuilder pages)
    {
        new PreStartPages().Map(pages);
        pages.MapGet("/reviews/{id}/pre-start/{sequence:long}", Answer);
    }

    protected override async Task<(ReviewRecord? Review, Trouble? Trouble)> Begin(HttpContext http, string id)
    {
        var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
        return review switch
        {
            null => (null, trouble),
            _ when ReviewReader.Signed(review) == 0 => (null, new Trouble(StatusCodes.Status409Conflict, "NOT_SIGNED_OFF", null, [])),
            { Summary.ClosedOut: true } => (null, new Trouble(StatusCodes.Status409Conflict, "CLOSED_OUT", null, [])),
            _ => await ReviewReader.Get(http, id, ReviewReader.Signed(review)).ConfigureAwait(false),
        };
    }

    protected override FactSheet Ask(HttpContext http, ReviewRecord review, DateTimeOffset now) => PreStartFacts.Of(review.Plan, review.Report.Units, now);

    protected override async Task<(string? Next, Trouble? Trouble)> Act(HttpContext http, SentForm sent, Plan plan, List<Violation> wrong)
    {
        var request = new CheckPreStartRequest { IdempotencyKey = sent.Key, ReviewId = sent.Id, Plan = plan, ChangesSince = ChangesOf(sent), LongestBreak = BreakOf(sent, wrong) };
        if (wrong.Count > 0)
        {
            return (null, Unreadable(wrong));
        }

        var (done, trouble) = await ReviewDoor.Ask(http, "CheckPreStart", request, (desk, caller) => desk.CheckPreStart(request, caller, http.RequestAborted)).ConfigureAwait(false);
        return (done is null ? null : $"/reviews/{sent.Id}/pre-start/{done.Receipt.Sequence}{QueryString.Create("sent", sent.Key)}", trouble);
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
    protected override string Typed(SentForm sent, string name) =>
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

    private static Duration? BreakOf(SentForm sent, List<Violation> wrong)
    {
        if (sent[Break].Length == 0)
        {
            return null;
        }

        if (FactText.Number(sent[Break]) is { } minutes)
        {
            return new Duration { Minutes = minutes };
        }

        wrong.Add(new Violation(Break, $"`{sent[Break]}`", sent.Words["typed-number"], sent.Words["typed-remedy"]));
        return null;
    }
}
