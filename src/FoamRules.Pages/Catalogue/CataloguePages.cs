using FoamRules.Model;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Site;
using FoamRules.Rules.Catalogue;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Catalogue;

/// <summary>What is judged: all requirements, a topic, or one requirement with its limits, severities and sources.</summary>
internal static class CataloguePages
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/requirements", (HttpContext http, PageRenderer renderer, PlanDesk desk) => List(null, http, renderer, desk));
        pages.MapGet("/requirements/{id}", (string id, HttpContext http, PageRenderer renderer, PlanDesk desk) =>
            id.Contains('.', StringComparison.Ordinal) ? One(id, http, renderer, desk) : List(id, http, renderer, desk));
    }

    private static Task<IResult> List(string? topic, HttpContext http, PageRenderer renderer, PlanDesk desk)
    {
        var page = PageContext.Of(http);
        var requirements = RuleCatalogue.Requirements(desk.Book(page.Words), topic);
        return requirements.IsEmpty
            ? NotFound(topic!, page, renderer)
            : renderer.Answer<CatalogueView>(page, new() { [nameof(CatalogueView.Requirements)] = requirements, [nameof(CatalogueView.Topic)] = topic });
    }

    private static Task<IResult> One(string id, HttpContext http, PageRenderer renderer, PlanDesk desk)
    {
        var page = PageContext.Of(http);
        var units = http.Request.Query["units"] == "us" ? DisplayUnits.Us : DisplayUnits.Si;
        return RuleCatalogue.Requirement(desk.Book(page.Words), id, units) is { } requirement
            ? renderer.Answer<RequirementView>(page, new() { [nameof(RequirementView.Requirement)] = requirement, [nameof(RequirementView.Units)] = units })
            : NotFound(id, page, renderer);
    }

    private static Task<IResult> NotFound(string wanted, PageContext page, PageRenderer renderer) =>
        renderer.Answer<NothingHere>(page, new() { [nameof(NothingHere.Wanted)] = wanted, [nameof(NothingHere.Instead)] = "/requirements" }, StatusCodes.Status404NotFound);
}
