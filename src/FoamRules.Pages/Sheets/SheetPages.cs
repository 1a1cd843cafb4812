using FoamRules.Model;
using FoamRules.Pages.Home;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Sheets;

/// <summary>Sheets for paper: of an example by an address, of any other plan by a form that carries it.</summary>
internal static class SheetPages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        Map<ReviewSheet>(pages, "review", null);
        Map<ReentrySign>(pages, "re-entry", null);
        Map<PreStartSheet>(pages, "pre-start", Stage.PreStart);
    }

    private static void Map<TSheet>(IEndpointRouteBuilder pages, string name, Stage? stage)
        where TSheet : IComponent
    {
        pages.MapGet($"/sheet/{name}", async (HttpContext http, PageRenderer renderer, PlanDesk desk) =>
        {
            var question = ReportQuestion.Read(field => http.Request.Query[field], out var violations);
            return question.Example is null && violations.Count == 0
                ? Results.Redirect("/")
                : await Answer(PageContext.Of(http), question, violations, http, renderer, desk).ConfigureAwait(false);
        });
        pages.MapPost($"/sheet/{name}", async (HttpContext http, PageRenderer renderer, PlanDesk desk) =>
        {
            var (form, problem, status) = await PostedForm.Read(http, PageContext.Of(http).Words).ConfigureAwait(false);
            if (form is null)
            {
                return await HomePage.Refused(http, renderer, [problem!], "", status).ConfigureAwait(false);
            }

            var question = ReportQuestion.Read(field => form[field], out var violations);
            return await Answer(PageContext.Of(http, form["language"]), question, violations, http, renderer, desk).ConfigureAwait(false);
        });

        async Task<IResult> Answer(PageContext page, ReportQuestion question, IReadOnlyList<Violation> violations, HttpContext http, PageRenderer renderer, PlanDesk desk)
        {
            var answer = violations.Count == 0 ? desk.Check(question with { Stage = stage ?? question.Stage }, page.Words, http.RequestAborted) : null;
            return answer?.Report is not null
                ? await renderer.Answer<TSheet>(page, new() { ["Question"] = question, ["Answer"] = answer }).ConfigureAwait(false)
                : await HomePage.Refused(http, renderer, answer?.Violations ?? violations, question.Plan, StatusCodes.Status422UnprocessableEntity, page).ConfigureAwait(false);
        }
    }
}
