using FoamRules.Exchange;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>
/// The language in which a caller reads what is no report: what the address says, what was chosen on a page before, or what
/// <c>accept-language</c> prefers, which is a header of HTTP and the metadata of gRPC alike.
/// </summary>
public static class AskedLanguage
{
    /// <summary>The cookie that keeps what was chosen on a page.</summary>
    public const string Cookie = "foamrules-language";

    /// <summary>The field of an address, and of a request, that says it.</summary>
    public const string Field = "language";

    private const string English = "en";

    /// <summary>The language, a tag by BCP 47: of several that are asked for the first that is spoken here; English where none is.</summary>
    public static string Of(HttpContext http) =>
        Asked(http).FirstOrDefault(tag => tag.Split('-')[0].Equals(English, StringComparison.OrdinalIgnoreCase) || !ViolationWords.Of(tag).IsEmpty) ?? English;

    /// <summary>Its words by their English pattern; none for English.</summary>
    public static IReadOnlyDictionary<string, string> PatternsOf(HttpContext http) => ViolationWords.Of(Of(http));

    private static IEnumerable<string> Asked(HttpContext http) =>
    [
        http.Request.Query[Field].ToString(),
        http.Request.Cookies[Cookie] ?? "",
        .. http.Request.GetTypedHeaders().AcceptLanguage.OrderByDescending(one => one.Quality ?? 1).Select(one => one.Value.ToString()),
    ];
}
