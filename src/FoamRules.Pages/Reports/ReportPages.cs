using FoamRules.Model;
using FoamRules.Pages.Home;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Reports;

/// <summary>The report of a plan: of an example by an address that can be passed on, of any other plan by a form that carries it.</summary>
internal static class ReportPages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/report", Example);
        pages.MapPost("/report", Posted);
    }

    private static async Task<IResult> Example(HttpContext http, PageRenderer renderer, PlanDesk desk)
    {
        var page = PageContext.Of(http);
        var question = ReportQuestion.Read(name => http.Request.Query[name], out var violations);
        if (question.Example is null && violations.Count == 0)
        {
            // Nothing was asked: the home page says how to ask.
            return Results.Redirect("/");
        }

        return await Answer(http, page, question, violations, renderer, desk).ConfigureAwait(false);
    }

    private static async Task<IResult> Posted(HttpContext http, PageRenderer renderer, PlanDesk desk)
    {
        var (form, problem, status) = await PostedForm.Read(http, PageContext.Of(http).Words).ConfigureAwait(false);
        if (form is null)
        {
            return await HomePage.Refused(http, renderer, [problem!], "", status).ConfigureAwait(false);
        }

        var question = ReportQuestion.Read(name => form[name], out var violations);
        if (form.Files.GetFile("file") is { Length: > 0 } file)
        {
            using var reader = new StreamReader(file.OpenReadStream());
            question = question with { Example = null, Plan = await reader.ReadToEndAsync(http.RequestAborted).ConfigureAwait(false), File = Path.GetFileName(file.FileName) };
        }

        return await Answer(http, PageContext.Of(http, form["language"]), question, violations, renderer, desk).ConfigureAwait(false);
    }

    private static async Task<IResult> Answer(HttpContext http, PageContext page, ReportQuestion question, IReadOnlyList<Violation> violations, PageRenderer renderer, PlanDesk desk)
    {
        if (violations.Count == 0 && string.IsNullOrWhiteSpace(question.Plan))
        {
            violations = [new Violation("", page.Words["plan-none"], page.Words["plan-none-allowed"], page.Words["plan-none-remedy"])];
        }

        var answer = violations.Count == 0 ? desk.Check(question, page.Words, http.RequestAborted) : null;
        return answer?.Report is not null
            ? await renderer.Answer<ReportPage>(page, new() { [nameof(ReportPage.Question)] = question, [nameof(ReportPage.Answer)] = answer }).ConfigureAwait(false)
            : await HomePage.Refused(http, renderer, answer?.Violations ?? violations, question.Plan, StatusCodes.Status422UnprocessableEntity, page).ConfigureAwait(false);
    }
}
