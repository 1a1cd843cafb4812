using System.Globalization;
using System.Security.Cryptography;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>
/// Keeps an API key for a browser, which cannot send one by itself: in a cookie that no script reads, that no other site makes a
/// browser send, and that says nothing to whoever finds it. It opens pages only, until the browser is closed or half a day is over.
/// </summary>
/// <param name="protection">Seals what is kept; its keys live as long as the service.</param>
/// <param name="clock">The clock by which half a day is over.</param>
public sealed class BrowserKeys(IDataProtectionProvider protection, TimeProvider clock)
{
    private const string Cookie = "foamrules-key";
    private static readonly PathString[] ForPrograms = ["/v1", "/metrics", "/openapi.json"];

    // What is kept from a time to come was kept before the clock was set back: how old it is, nobody knows.
    private static readonly TimeSpan Slack = TimeSpan.FromMinutes(5);

    private readonly IDataProtector _seal = protection.CreateProtector("api-key-of-a-browser");

    /// <summary>How long a key is kept at most.</summary>
    public static TimeSpan Longest { get; } = TimeSpan.FromHours(12);

    /// <summary>True where the browser shows a key that it was given to keep.</summary>
    public static bool IsKept(HttpContext context) => context.Request.Cookies.ContainsKey(Cookie);

    /// <summary>Gives the browser a key to keep.</summary>
    public void Keep(HttpContext context, string key) => context.Response.Cookies.Append(Cookie, _seal.Protect($"{clock.GetUtcNow().UtcTicks.ToString(CultureInfo.InvariantCulture)} {key}"), Options);

    /// <summary>Has the browser forget it.</summary>
    public static void Forget(HttpContext context) => context.Response.Cookies.Delete(Cookie, Options);

    /// <summary>The key that the browser keeps; null: none, or one that is not for this.</summary>
    public string? KeyOf(HttpContext context)
    {
        if (context.Request.Cookies[Cookie] is not { } kept || Refusal.IsGrpc(context) || ForPrograms.Any(path => context.Request.Path.StartsWithSegments(path)))
        {
            return null;
        }

        try
        {
            var parts = _seal.Unprotect(kept).Split(' ', 2);
            var age = clock.GetUtcNow() - new DateTimeOffset(long.Parse(parts[0], CultureInfo.InvariantCulture), TimeSpan.Zero);
            return age < Longest && age > -Slack ? parts[1] : null;
        }
        catch (CryptographicException)
        {
            // From before the service was started again, or made up.
            return null;
        }
    }

    private static CookieOptions Options => new() { HttpOnly = true, Secure = true, SameSite = SameSiteMode.Strict, Path = "/", IsEssential = true };
}
