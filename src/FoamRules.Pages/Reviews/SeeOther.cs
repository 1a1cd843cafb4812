using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Reviews;

/// <summary>After an act the browser goes on to a page that can be loaded again without doing it again.</summary>
/// <param name="path">The page.</param>
internal sealed class SeeOther(string path) : IResult
{
    public static IResult To(string path) => new SeeOther(path);

    public Task ExecuteAsync(HttpContext httpContext)
    {
        httpContext.Response.StatusCode = StatusCodes.Status303SeeOther;
        httpContext.Response.Headers.Location = path;
        return Task.CompletedTask;
    }
}
