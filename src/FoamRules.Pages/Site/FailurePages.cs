using FoamRules.Access;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;

namespace FoamRules.Pages.Site;

/// <summary>
/// A page for whoever sits before a browser where an answer ends with a status and nothing else: the service failed, was ended for
/// taking too long, or does not take what was asked. What went wrong inside is for the log.
/// </summary>
internal static class FailurePages
{
    /// <summary>Puts them around everything that is mapped.</summary>
    /// <param name="service">The application.</param>
    public static void Use(IApplicationBuilder service) => service.UseWhen(RefusalPage.IsAsked, pages =>
    {
        pages.UseStatusCodePages(ended => Write(ended.HttpContext));
        // Logs what was thrown, takes back what was begun, and leaves the status to the line above.
        pages.UseExceptionHandler(new ExceptionHandlerOptions
        {
            ExceptionHandler = _ => Task.CompletedTask,
            StatusCodeSelector = error => error is BadHttpRequestException bad ? bad.StatusCode : StatusCodes.Status500InternalServerError,
        });
    });

    private static async Task Write(HttpContext http)
    {
        var status = http.Response.StatusCode;
        PageHeaders.Set(http.Response);
        http.Response.Headers.CacheControl = "no-store";
        var answer = await http.RequestServices.GetRequiredService<PageRenderer>().Answer<FailedView>(
            PageContext.Of(http), new() { [nameof(FailedView.Status)] = status, [nameof(FailedView.Id)] = http.TraceIdentifier }, status).ConfigureAwait(false);
        await answer.ExecuteAsync(http).ConfigureAwait(false);
    }
}
