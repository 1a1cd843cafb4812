using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Site;

/// <summary>Headers of every page: nothing is loaded from elsewhere, nothing runs that stands in the markup, and no other site frames it.</summary>
internal sealed class PageHeaders : IEndpointFilter
{
    private const string Policy =
        "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self'; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    public ValueTask<object?> InvokeAsync(EndpointFilterInvocationContext context, EndpointFilterDelegate next)
    {
        Set(context.HttpContext.Response);
        return next(context);
    }

    /// <summary>Sets them.</summary>
    /// <param name="response">The answer.</param>
    public static void Set(HttpResponse response)
    {
        var headers = response.Headers;
        headers.ContentSecurityPolicy = Policy;
        headers.XContentTypeOptions = "nosniff";
        headers["Referrer-Policy"] = "same-origin";
        headers["Cross-Origin-Opener-Policy"] = "same-origin";
        headers.Vary = "Accept-Language, Cookie";
    }
}
