using FoamRules.Pages.Reports;
using FoamRules.Pages.Sheets;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Stage = FoamRules.Model.Stage;

namespace FoamRules.Pages.Reviews;

/// <summary>Sheets for paper of the plan that was signed off, judged as of now.</summary>
internal static class StoredSheets
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        Map<PreStartSheet>(pages, "pre-start", Stage.PreStart);
        Map<ReentrySign>(pages, "re-entry", null);
    }

    private static void Map<TSheet>(IEndpointRouteBuilder pages, string name, Stage? stage)
        where TSheet : IComponent =>
        pages.MapGet($"/reviews/{{id}}/sheet/{name}", async (string id, HttpContext http, PageRenderer renderer, PlanDesk desk) =>
        {
            var page = PageContext.Of(http);
            var (review, trouble) = await ReviewReader.Get(http, id).ConfigureAwait(false);
            trouble ??= ReviewReader.Signed(review!) == 0 ? new Trouble(StatusCodes.Status409Conflict, "NOT_SIGNED_OFF", null, []) : null;
            (review, trouble) = trouble is null ? await ReviewReader.Get(http, id, ReviewReader.Signed(review!)).ConfigureAwait(false) : (null, trouble);
            return review is null
                ? await ReviewPages.Refused(http, renderer, page, trouble!).ConfigureAwait(false)
                : await renderer.Answer<TSheet>(page, new() { ["Review"] = review, ["Answer"] = desk.Check(review.Plan, stage, (Model.DisplayUnits)review.Report.Units, page.Words, http.RequestAborted) }).ConfigureAwait(false);
        });
}
