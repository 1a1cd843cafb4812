using System.Net;
using FoamRules.Access;
using FoamRules.Model;
using FoamRules.Pages.Reviews;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.Logging;

namespace FoamRules.Pages.SignIn;

/// <summary>Where a browser is given an API key to keep, and where it is taken away again. Only a service that takes keys has the page.</summary>
internal static partial class SignInPage
{
    private const string KeyField = "api-key";

    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet(Gate.SignIn, (HttpContext http, PageRenderer renderer, AccessSettings access) => access.ApiKeys is null
            ? Task.FromResult(Results.Redirect("/"))
            : Show(http, renderer, http.Request.Query[Gate.BackField], [], StatusCodes.Status200OK));
        pages.MapPost(Gate.SignIn, Posted);
        pages.MapPost("/sign-out", async (HttpContext http, PageRenderer renderer) =>
        {
            var (form, problem, status) = await PostedForm.Read(http, PageContext.Of(http).Words).ConfigureAwait(false);
            if (form is null)
            {
                return await Show(http, renderer, "", [problem!], status).ConfigureAwait(false);
            }

            BrowserKeys.Forget(http);
            return SeeOther.To(Gate.SignIn);
        });
    }

    private static async Task<IResult> Posted(HttpContext http, PageRenderer renderer, AccessSettings access, Prover prover, BrowserKeys keys, ILoggerFactory loggers)
    {
        var words = PageContext.Of(http).Words;
        var (form, problem, status) = await PostedForm.Read(http, words).ConfigureAwait(false);
        if (form is null)
        {
            return await Show(http, renderer, "", [problem!], status).ConfigureAwait(false);
        }

        var (key, back) = (form[KeyField].ToString().Trim(), form[Gate.BackField].ToString());
        if (access.ApiKeys is null || prover.ByKey(key).Identity is null)
        {
            LogRefused(loggers.CreateLogger(typeof(SignInPage)), http.Connection.RemoteIpAddress);
            return await Show(http, renderer, back, [new Violation(KeyField, words["sign-in-found"], words["sign-in-allowed"], words["sign-in-remedy"])], StatusCodes.Status422UnprocessableEntity).ConfigureAwait(false);
        }

        keys.Keep(http, key);
        return SeeOther.To(OwnPath.Of(back, "/"));
    }

    // What was typed is never shown again.
    private static Task<IResult> Show(HttpContext http, PageRenderer renderer, string? back, IReadOnlyList<Violation> violations, int status)
    {
        http.Response.Headers.CacheControl = "no-store";
        return renderer.Answer<SignInView>(PageContext.Of(http), new()
        {
            [nameof(SignInView.Back)] = OwnPath.Of(back, "/"),
            [nameof(SignInView.Name)] = Callers.ProvenName(http),
            [nameof(SignInView.Violations)] = violations,
        }, status);
    }

    [LoggerMessage(EventId = 41, EventName = "SignInRefused", Level = LogLevel.Warning, Message = "Sign-in from {From} refused: the key is not known, or its time is over")]
    private static partial void LogRefused(ILogger log, IPAddress? from);
}
