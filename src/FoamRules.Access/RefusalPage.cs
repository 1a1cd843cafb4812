using System.Text.Encodings.Web;
using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>A refusal as a small page, for whoever sits before a browser: no style, no script, nothing that would have to be asked for.</summary>
public static class RefusalPage
{
    /// <summary>True for a browser that asks for a page.</summary>
    /// <param name="context">The request.</param>
    public static bool IsAsked(HttpContext context) => !Refusal.IsGrpc(context) && !context.Request.Path.StartsWithSegments("/v1")
        && context.Request.Headers.Accept.ToString().Contains("text/html", StringComparison.OrdinalIgnoreCase);

    /// <summary>Answers with the page.</summary>
    /// <param name="context">The request.</param>
    /// <param name="problem">What a program would get, in the language of the page.</param>
    /// <param name="again">When to ask again; null: that would change nothing.</param>
    internal static Task Write(HttpContext context, JsonObject problem, TimeSpan? again)
    {
        var (language, html) = (AskedLanguage.Of(context), HtmlEncoder.Default);
        Said wait = $"Ask again in {Math.Ceiling(again?.TotalSeconds ?? 0)} s.";
        var lines = new List<string> { Sentence((string)problem["detail"]!) };
        if (again is not null)
        {
            lines.Add(wait.In(ViolationWords.Of(language)));
        }

        var title = html.Encode((string)problem["title"]!);
        context.Response.StatusCode = (int)problem["status"]!;
        context.Response.ContentType = "text/html; charset=utf-8";
        context.Response.Headers.CacheControl = "no-store";
        return context.Response.WriteAsync($"""
            <!DOCTYPE html>
            <html lang="{html.Encode(language)}">
            <head>
                <meta charset="utf-8">
                <meta name="viewport" content="width=device-width, initial-scale=1">
                <title>{title} · FoamRules</title>
            </head>
            <body>
                <main>
                    <h1>{title}</h1>
                    {string.Join("\n        ", lines.Select(line => $"<p>{html.Encode(line)}</p>"))}
                    <p><a href="/">FoamRules</a></p>
                </main>
            </body>
            </html>

            """, context.RequestAborted);
    }

    private static string Sentence(string detail) => $"{char.ToUpperInvariant(detail[0])}{detail[1..]}.";
}
