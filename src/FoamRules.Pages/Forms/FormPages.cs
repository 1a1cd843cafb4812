using FoamRules.Model;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Forms;

/// <summary>The short forms: one column to fill, one wall to spray. What comes of one is a plan like any other.</summary>
internal static class FormPages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        foreach (var form in ShortForm.All)
        {
            pages.MapGet($"/form/{form.Name}", async (HttpContext http, PageRenderer renderer, PlanDesk desk) =>
                await Show(FilledForm.Empty(form), [], StatusCodes.Status200OK, PageContext.Of(http), renderer, desk).ConfigureAwait(false));
            pages.MapPost($"/form/{form.Name}", (HttpContext http, PageRenderer renderer, PlanDesk desk) => Answer(form, http, renderer, desk));
        }
    }

    private static async Task<IResult> Answer(ShortForm form, HttpContext http, PageRenderer renderer, PlanDesk desk)
    {
        var page = PageContext.Of(http);
        var (sent, problem, status) = await PostedForm.Read(http, page.Words).ConfigureAwait(false);
        if (sent is null)
        {
            return await Show(FilledForm.Empty(form), [problem!], status, page, renderer, desk).ConfigureAwait(false);
        }

        var filled = FilledForm.Of(form, sent);
        var question = new ReportQuestion { Plan = filled.Plan() };
        var answer = desk.Check(question, page.Words, http.RequestAborted);
        IReadOnlyList<Violation> wrong = [.. filled.Wrong(page.Words), .. answer.Violations];
        return answer.Report is not null && wrong.Count == 0
            ? await renderer.Answer<ReportPage>(page, new() { [nameof(ReportPage.Question)] = question, [nameof(ReportPage.Answer)] = answer }).ConfigureAwait(false)
            : await Show(filled, wrong, StatusCodes.Status422UnprocessableEntity, page, renderer, desk).ConfigureAwait(false);
    }

    private static Task<IResult> Show(FilledForm filled, IReadOnlyList<Violation> violations, int status, PageContext page, PageRenderer renderer, PlanDesk desk) =>
        renderer.Answer<FormView>(page, new() { [nameof(FormView.Filled)] = filled, [nameof(FormView.Violations)] = violations, [nameof(FormView.Texts)] = desk.Book(page.Words).Texts }, status);
}
