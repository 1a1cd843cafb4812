using FoamRules.Contracts.V1;
using FoamRules.Pages.Reviews.Facts;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews;

/// <summary>A page with a form of facts about a plan on record, and the act that it is sent for.</summary>
/// <typeparam name="TView">Draws it: with the parameters Review, Sheet, Sent, Trouble, and what the page adds.</typeparam>
/// <param name="path">Its path below that of the review.</param>
/// <param name="method">The method of ReviewService whose permissions hold.</param>
internal abstract class FactPage<TView>(string path, string method)
    where TView : IComponent
{
    /// <summary>The input that tells with which entry the form began. Its rows are those of that entry's plan.</summary>
    public const string Shown = "shown";

    public void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet($"/reviews/{{id}}/{path}", (string id, HttpContext http, PageRenderer renderer) => Show(http, renderer, id, null, null, null));
        pages.MapPost($"/reviews/{{id}}/{path}", Posted);
    }

    /// <summary>The review with the plan that the form begins with, or why there is no such form now.</summary>
    protected abstract Task<(ReviewRecord? Review, Trouble? Trouble)> Begin(HttpContext http, string id);

    /// <summary>What is asked; null: the review has nothing of that name.</summary>
    protected abstract FactSheet? Ask(HttpContext http, ReviewRecord review, DateTimeOffset now);

    /// <summary>Does the act with the plan as answered. What cannot be read besides goes to <paramref name="wrong"/>, and then nothing is done.</summary>
    /// <returns>The page to go on to, or why it was not done.</returns>
    protected abstract Task<(string? Next, Trouble? Trouble)> Act(HttpContext http, SentForm sent, Plan plan, List<Violation> wrong);

    /// <summary>What the view is given besides.</summary>
    protected virtual Dictionary<string, object?> Besides(HttpContext http, ReviewRecord review) => [];

    /// <summary>What was typed into an input, as it goes into the plan.</summary>
    protected virtual string Typed(SentForm sent, string name) => sent[name];

    /// <summary>How many readings of an area stand before those that are asked.</summary>
    protected virtual int ReadingsBefore(WorkArea area) => 0;

    /// <summary>That the form cannot be used as it was sent.</summary>
    protected static Trouble Unreadable(List<Violation> wrong) => new(StatusCodes.Status422UnprocessableEntity, "REQUEST_UNREADABLE", "", wrong);

    private async Task<IResult> Posted(string id, HttpContext http, PageRenderer renderer)
    {
        var words = PageContext.Of(http).Words;
        var (sent, refused) = await SentForm.Read(http, words, id).ConfigureAwait(false);
        if (sent is null || ReviewDoor.WhyNot(http, method) is not null)
        {
            return await Show(http, renderer, id, null, null, refused).ConfigureAwait(false);
        }

        var (sheet, review, trouble) = await Sheet(http, id).ConfigureAwait(false);
        if (sheet is null)
        {
            return await Show(http, renderer, id, sent, null, trouble).ConfigureAwait(false);
        }

        if (sent[Shown] != $"{review!.ShownSequence}")
        {
            // Rows are not carried over to another plan by guess.
            return await Show(http, renderer, id, null, null, new Trouble(StatusCodes.Status409Conflict, "REVISION_CHANGED", null, [])).ConfigureAwait(false);
        }

        var plan = sheet.Answered(name => Typed(sent, name), words, out var wrong);
        ReadingRows.Date(plan, area => ReadingsBefore(sheet.Plan.Areas[area]), name => sent[name]);
        (var next, trouble) = await Act(http, sent, plan, wrong).ConfigureAwait(false);
        return next is null ? await Show(http, renderer, id, sent, sheet, trouble).ConfigureAwait(false) : SeeOther.To(next);
    }

    private async Task<IResult> Show(HttpContext http, PageRenderer renderer, string id, SentForm? sent, FactSheet? sheet, Trouble? trouble)
    {
        var page = PageContext.Of(http);
        if (ReviewDoor.WhyNot(http, method) is { } not)
        {
            return await ReviewPages.Refused(http, renderer, page, not).ConfigureAwait(false);
        }

        var (current, review, why) = await Sheet(http, id).ConfigureAwait(false);
        return current is null
            ? await ReviewPages.Refused(http, renderer, page, trouble ?? why!).ConfigureAwait(false)
            : await renderer.Answer<TView>(page, new(Besides(http, review!)) { ["Review"] = review, ["Sheet"] = sheet ?? current, ["Sent"] = sent, ["Trouble"] = trouble }, trouble?.Status ?? StatusCodes.Status200OK).ConfigureAwait(false);
    }

    private async Task<(FactSheet? Sheet, ReviewRecord? Review, Trouble? Trouble)> Sheet(HttpContext http, string id)
    {
        var (review, trouble) = await Begin(http, id).ConfigureAwait(false);
        var sheet = review is null ? null : Ask(http, review, http.RequestServices.GetRequiredService<TimeProvider>().GetUtcNow());
        return (sheet, review, sheet is null ? trouble ?? new Trouble(StatusCodes.Status404NotFound, "NOT_FOUND", null, []) : null);
    }
}
