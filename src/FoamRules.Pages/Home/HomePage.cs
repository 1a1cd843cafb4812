using FoamRules.Model;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Home;

/// <summary>The first page: what this is, an example at one press, and the ways to bring a plan.</summary>
internal static class HomePage
{
    public static void Map(IEndpointRouteBuilder pages) =>
        pages.MapGet("/", (HttpContext http, PageRenderer renderer) => renderer.Answer<HomeView>(PageContext.Of(http)));

    /// <summary>The first page again, with what is wrong with the plan that was brought.</summary>
    public static Task<IResult> Refused(HttpContext http, PageRenderer renderer, IReadOnlyList<Violation> violations, string plan, int status, PageContext? page = null) =>
        renderer.Answer<HomeView>(page ?? PageContext.Of(http), new() { [nameof(HomeView.Violations)] = violations, [nameof(HomeView.Plan)] = plan }, status);
}
