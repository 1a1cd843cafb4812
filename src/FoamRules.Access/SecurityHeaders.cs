using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>
/// What browsers must keep to, on every answer that is not gRPC; a page that needs something else says so itself and is not
/// overruled.
/// </summary>
/// <param name="next">What comes after.</param>
public sealed class SecurityHeaders(RequestDelegate next)
{
    private static readonly (string Name, string Value)[] Always =
    [
        ("X-Content-Type-Options", "nosniff"),
        ("X-Frame-Options", "DENY"),
        // Without any, a browser states no origin even for a form of this very site.
        ("Referrer-Policy", "same-origin"),
        ("Cross-Origin-Opener-Policy", "same-origin"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
        ("Permissions-Policy", "camera=(), geolocation=(), microphone=()"),
        ("Content-Security-Policy", "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; form-action 'self'; frame-ancestors 'none'"),
    ];

    /// <summary>Sets the headers where the answer begins.</summary>
    public Task InvokeAsync(HttpContext context)
    {
        if (!Refusal.IsGrpc(context))
        {
            context.Response.OnStarting(() =>
            {
                foreach (var (name, value) in Always)
                {
                    context.Response.Headers.TryAdd(name, value);
                }

                if (context.Request.IsHttps)
                {
                    context.Response.Headers.TryAdd("Strict-Transport-Security", "max-age=31536000");
                }

                return Task.CompletedTask;
            });
        }

        return next(context);
    }
}
