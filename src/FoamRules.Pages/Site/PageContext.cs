using FoamRules.Access;
using FoamRules.Pages.Reviews;
using FoamRules.Records;
using FoamRules.Records.Reviews;
using Microsoft.AspNetCore.Antiforgery;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Site;

/// <summary>What every page knows of the request that it answers.</summary>
/// <param name="Words">The words of its language.</param>
/// <param name="Path">Its path.</param>
/// <param name="Query">Its query, without the language; null where a link cannot lead to it, because a form was sent.</param>
/// <param name="Token">Shows that a form that comes back was this site's own.</param>
public sealed record PageContext(PageWords Words, string Path, IReadOnlyList<KeyValuePair<string, string>>? Query, AntiforgeryTokenSet Token)
{
    /// <summary>True where the service keeps reviews.</summary>
    public bool HasReviews { get; init; }

    /// <summary>Who calls; null: nobody has said so.</summary>
    public Caller? Caller { get; init; }

    /// <summary>True where the browser keeps a key by which its caller is known.</summary>
    public bool IsSignedIn { get; init; }

    /// <summary>The context of a request.</summary>
    /// <param name="http">The request.</param>
    /// <param name="language">The language that a form asks for; null: by the address, the choice before, or what the browser prefers.</param>
    public static PageContext Of(HttpContext http, string? language = null)
    {
        var asked = language ?? http.Request.Query[AskedLanguage.Field].ToString();
        if (PageWords.Find(asked) is { } chosen)
        {
            // Kept for the pages that follow; nothing else is known of whoever reads.
            http.Response.Cookies.Append(AskedLanguage.Cookie, chosen.Language, new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Lax, Secure = http.Request.IsHttps, MaxAge = TimeSpan.FromDays(365) });
        }

        var words = PageWords.Find(asked) ?? PageWords.Find(http.Request.Cookies[AskedLanguage.Cookie] ?? "")
            ?? http.Request.GetTypedHeaders().AcceptLanguage.OrderByDescending(one => one.Quality ?? 1).Select(one => PageWords.Find(one.Value.ToString())).FirstOrDefault(found => found is not null)
            ?? PageWords.In(PageWords.English);
        var query = HttpMethods.IsGet(http.Request.Method)
            ? http.Request.Query.Where(pair => pair.Key != AskedLanguage.Field).SelectMany(pair => pair.Value.Select(value => KeyValuePair.Create(pair.Key, value ?? ""))).ToList()
            : null;
        var antiforgery = (IAntiforgery)http.RequestServices.GetService(typeof(IAntiforgery))!;
        return new PageContext(words, OwnPath.Of(http.Request.Path, "/"), query, antiforgery.GetAndStoreTokens(http))
        {
            HasReviews = http.RequestServices.GetService(typeof(ReviewDesk)) is not null,
            Caller = WhoCalls.Of(http),
            IsSignedIn = Callers.ProvenName(http) is not null && BrowserKeys.IsKept(http),
        };
    }

    /// <summary>This page in another language.</summary>
    /// <param name="language">The language.</param>
    public string In(string language) => $"{Path}{QueryString.Create([.. (Query ?? []).Select(pair => KeyValuePair.Create(pair.Key, (string?)pair.Value)), KeyValuePair.Create(AskedLanguage.Field, (string?)language)])}";
}
