using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Site;

/// <summary>Styles and scripts. The address carries a hash of what it names, so that a browser keeps it for good.</summary>
public static class PageAssets
{
    private static readonly FrozenDictionary<string, (string Text, string Address)> Files = Resources.In("assets").ToFrozenDictionary(
        name => name,
        name => Resources.Text("assets", name) is var text ? (text, $"/assets/{Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)))[..12]}/{name}") : default);

    /// <summary>The addresses of all styles.</summary>
    public static ImmutableArray<string> Styles => [.. Files.Keys.Where(name => name.EndsWith(".css", StringComparison.Ordinal)).Order(StringComparer.Ordinal).Select(name => Files[name].Address)];

    /// <summary>All styles as one text, for a file that stands alone.</summary>
    public static string StyleText => string.Join('\n', Files.Where(file => file.Key.EndsWith(".css", StringComparison.Ordinal)).OrderBy(file => file.Key, StringComparer.Ordinal).Select(file => file.Value.Text));

    /// <summary>The address of a script.</summary>
    public static string Script(string name) => Files[name].Address;

    internal static void Map(IEndpointRouteBuilder pages) => pages.MapGet("/assets/{hash}/{name}", (string hash, string name, HttpContext http) =>
    {
        if (!Files.TryGetValue(name, out var file))
        {
            return Results.NotFound();
        }

        http.Response.Headers.CacheControl = file.Address == $"/assets/{hash}/{name}" ? "public, max-age=31536000, immutable" : "no-cache";
        return Results.Text(file.Text, name.EndsWith(".css", StringComparison.Ordinal) ? "text/css" : "text/javascript", Encoding.UTF8);
    });
}
