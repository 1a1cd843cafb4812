using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;

namespace FoamRules.Pages.Site;

/// <summary>Draws components as HTML: a page is whole before its first byte goes out, so that a failure never leaves half a report.</summary>
/// <param name="services">The services.</param>
/// <param name="loggers">The loggers.</param>
public sealed class PageRenderer(IServiceProvider services, ILoggerFactory loggers)
{
    /// <summary>The HTML of a component.</summary>
    /// <typeparam name="TComponent">The component.</typeparam>
    /// <param name="parameters">Its parameters.</param>
    public async Task<string> Draw<TComponent>(IDictionary<string, object?> parameters)
        where TComponent : IComponent
    {
        await using var renderer = new HtmlRenderer(services, loggers);
        return await renderer.Dispatcher.InvokeAsync(async () =>
            (await renderer.RenderComponentAsync<TComponent>(ParameterView.FromDictionary(parameters)).ConfigureAwait(true)).ToHtmlString()).ConfigureAwait(false);
    }

    /// <summary>A page as an answer.</summary>
    /// <typeparam name="TPage">The page, with a parameter <c>Page</c>.</typeparam>
    /// <param name="page">The context.</param>
    /// <param name="parameters">Its other parameters.</param>
    /// <param name="status">The status code.</param>
    public async Task<IResult> Answer<TPage>(PageContext page, Dictionary<string, object?>? parameters = null, int status = StatusCodes.Status200OK)
        where TPage : IComponent =>
        Results.Content(await Draw<TPage>(new Dictionary<string, object?>(parameters ?? []) { ["Page"] = page }).ConfigureAwait(false), "text/html; charset=utf-8", statusCode: status);
}
