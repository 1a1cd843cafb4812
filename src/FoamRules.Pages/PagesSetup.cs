using FoamRules.Pages.Catalogue;
using FoamRules.Pages.Comparing;
using FoamRules.Pages.Forms;
using FoamRules.Pages.Home;
using FoamRules.Pages.Reports;
using FoamRules.Pages.Reviews;
using FoamRules.Pages.Sheets;
using FoamRules.Pages.SignIn;
using FoamRules.Pages.Site;
using FoamRules.Records.Reviews;
using FoamRules.Rules.Engine;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;

namespace FoamRules.Pages;

/// <summary>Puts the pages into a web application.</summary>
public static class PagesSetup
{
    /// <summary>Adds what the pages need.</summary>
    /// <param name="services">The services.</param>
    /// <param name="engine">The engine in use; each request is answered whole by the one that stands when it comes.</param>
    public static IServiceCollection AddPages(this IServiceCollection services, Func<IServiceProvider, CheckEngine> engine)
    {
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "foamrules-form";
            options.FormFieldName = "form-token";
        });
        services.AddSingleton<PageRenderer>();
        services.AddSingleton(provider => new PlanDesk(() => engine(provider), provider.GetRequiredService<TimeProvider>()));
        return services;
    }

    /// <summary>Puts a page around what ends without one; before the gate and what is mapped.</summary>
    /// <param name="service">The application.</param>
    public static IApplicationBuilder UsePages(this IApplicationBuilder service)
    {
        FailurePages.Use(service);
        return service;
    }

    /// <summary>Maps the pages.</summary>
    /// <param name="routes">The application's routes.</param>
    public static IEndpointRouteBuilder MapPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").AddEndpointFilter<RouteGroupBuilder, PageHeaders>();
        PageAssets.Map(pages);
        SignInPage.Map(pages);
        HomePage.Map(pages);
        ReportPages.Map(pages);
        // Only a service that keeps records has reviews.
        if (routes.ServiceProvider.GetService<ReviewDesk>() is not null)
        {
            WhoPage.Map(pages);
            ReviewPages.Map(pages);
            PreStartPages.MapAll(pages);
            CloseOutPages.MapAll(pages);
            new ReentryPage().Map(pages);
            StoredSheets.Map(pages);
        }

        FormPages.Map(pages);
        SheetPages.Map(pages);
        CataloguePages.Map(pages);
        ComparePages.Map(pages);
        pages.MapFallback((HttpContext http, PageRenderer renderer) => http.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.Ordinal)
            ? renderer.Answer<NothingHere>(PageContext.Of(http), new() { [nameof(NothingHere.Wanted)] = http.Request.Path.ToString() }, StatusCodes.Status404NotFound)
            : Task.FromResult(Results.NotFound()));
        return routes;
    }
}
