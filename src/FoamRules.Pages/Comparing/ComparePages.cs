using System.Collections.Immutable;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Site;
using FoamRules.Readings;
using FoamRules.Rules.Catalogue;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Comparing;

/// <summary>Two choices of rule sets against each other, and what they change for an example plan.</summary>
internal static class ComparePages
{
    public static void Map(IEndpointRouteBuilder pages) => pages.MapGet("/compare", Answer);

    private static Task<IResult> Answer(HttpContext http, PageRenderer renderer, PlanDesk desk, TimeProvider clock)
    {
        var page = PageContext.Of(http);
        var query = http.Request.Query;
        var catalogue = new RuleCatalogue(desk.Engine);
        ImmutableArray<string> before = [.. query["before"].OfType<string>()], after = [.. query["after"].OfType<string>()];
        var question = ReportQuestion.Read(name => query[name], out var wrong);
        var parameters = new Dictionary<string, object?>
        {
            [nameof(CompareView.RuleSets)] = catalogue.RuleSets(),
            [nameof(CompareView.Before)] = before,
            [nameof(CompareView.After)] = after,
            [nameof(CompareView.Question)] = question,
            [nameof(CompareView.Names)] = new ReadingWords(desk.Book(page.Words).Texts),
        };
        var violations = wrong.ToList();
        if (before.IsEmpty != after.IsEmpty)
        {
            violations.Add(new Violation(before.IsEmpty ? "before" : "after", page.Words["compare-none"], page.Words["compare-none-allowed"], page.Words["compare-none-remedy"]));
        }

        if (violations.Count == 0 && !before.IsEmpty)
        {
            var was = catalogue.Book(before, out var beforeWrong);
            var will = catalogue.Book(after, out var afterWrong);
            violations.AddRange(beforeWrong.Select(violation => violation with { Path = "before" }).Concat(afterWrong.Select(violation => violation with { Path = "after" })));
            if (was is not null && will is not null)
            {
                var units = question.Units ?? DisplayUnits.Si;
                parameters[nameof(CompareView.Differences)] = RuleCatalogue.Compare(desk.In(was, page.Words), desk.In(will, page.Words), units);
                parameters[nameof(CompareView.Plan)] = question.Example is null ? null
                    : catalogue.Compare(PlanReader.ReadText(question.Plan, null, new ReadOptions(clock.GetUtcNow())).Plan!, desk.In(was, page.Words), desk.In(will, page.Words), units, http.RequestAborted);
            }
        }

        parameters[nameof(CompareView.Violations)] = violations;
        return renderer.Answer<CompareView>(page, parameters, violations.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity);
    }
}
