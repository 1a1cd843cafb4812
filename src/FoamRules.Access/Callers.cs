using System.Text;
using FoamRules.Contracts.V1;
using FoamRules.Records;
using Google.Rpc;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Said = FoamRules.Model.Said;

namespace FoamRules.Access;

/// <summary>Who calls, or why that is not known.</summary>
/// <param name="Caller">Who; null: it is not known.</param>
/// <param name="Code">The code of the refusal.</param>
/// <param name="Reason">The reason as one word for programs.</param>
/// <param name="WhyNot">The reason in a sentence.</param>
public sealed record CallerAnswer(Caller? Caller, Code Code = Code.Ok, string Reason = "", Said? WhyNot = null);

/// <summary>
/// Who calls, the same at every door: gRPC, HTTP with JSON, pages. Where callers must prove who they are, it is who they have
/// proven to be, in one of the roles that this gives them. Elsewhere it is what they state: in the metadata x-actor (or
/// x-actor-bin) and x-role, or on pages in the cookies that a form has set.
/// </summary>
public static class Callers
{
    /// <summary>The longest name.</summary>
    public const int MostCharacters = 200;

    private const string NameCookie = "foamrules-name";
    private const string RoleCookie = "foamrules-role";

    /// <summary>Who calls; null where that is not known, or not as they state it.</summary>
    public static Caller? CallerOf(HttpContext context) => Of(context).Caller;

    /// <summary>Who calls, or why that is not known.</summary>
    public static CallerAnswer Of(HttpContext context) =>
        context.Features.Get<ProvenIdentity>() is { } proven ? Proven(proven, context)
        : MustProve(context) ? new CallerAnswer(null, Code.Unauthenticated, "NOT_PROVEN", "nothing proves who calls; nothing was done")
        : Stated(context);

    /// <summary>True where callers must prove who they are, so that a page need not ask for a name.</summary>
    public static bool MustProve(HttpContext context) => context.RequestServices?.GetService<AccessSettings>() is { AsksForIdentity: true };

    /// <summary>The name that the caller has proven; null: none.</summary>
    public static string? ProvenName(HttpContext context) => context.Features.Get<ProvenIdentity>()?.Name;

    /// <summary>The roles in which this caller may act; the page's form offers them.</summary>
    public static IReadOnlyList<Role> RolesOf(HttpContext context) => context.Features.Get<ProvenIdentity>()?.Roles ?? [.. Roles.ByWord.Values];

    /// <summary>Keeps, for pages, what a person has stated in a form. A proven identity stays who it is: of it only the role is kept.</summary>
    public static void State(HttpContext context, string name, Role role)
    {
        var options = new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = context.Request.IsHttps, Path = "/", IsEssential = true };
        context.Response.Cookies.Append(NameCookie, Convert.ToBase64String(Encoding.UTF8.GetBytes(name)), options);
        context.Response.Cookies.Append(RoleCookie, Roles.WordOf(role), options);
    }

    private static CallerAnswer Proven(ProvenIdentity proven, HttpContext context)
    {
        if (StatedName(context.Request.Headers) is { } name && name.Trim() != proven.Name)
        {
            return new CallerAnswer(null, Code.PermissionDenied, "NOT_YOUR_NAME", $"x-actor states another name than that of the identity, {proven.Name}; leave it out; nothing was done");
        }

        var word = context.Request.Headers["x-role"].FirstOrDefault() ?? context.Request.Cookies[RoleCookie];
        if (word is null)
        {
            return proven.Roles is [var only]
                ? new CallerAnswer(new Caller(proven.Name, only, proven.How))
                : new CallerAnswer(null, Code.PermissionDenied, "ROLE_NOT_CHOSEN",
                    proven.Roles.Count == 0 ? (Said)"the identity gives no role; ask whoever keeps the service" : $"x-role: say in which role; the identity gives {string.Join(", ", proven.Roles.Select(Roles.WordOf))}");
        }

        return Roles.ByWord.TryGetValue(word, out var role) && proven.Roles.Contains(role)
            ? new CallerAnswer(new Caller(proven.Name, role, proven.How))
            : new CallerAnswer(null, Code.PermissionDenied, "NOT_YOUR_ROLE", $"x-role states a role that the identity does not give; it gives {(proven.Roles.Count == 0 ? (Said)"none" : string.Join(", ", proven.Roles.Select(Roles.WordOf)))}");
    }

    private static CallerAnswer Stated(HttpContext context)
    {
        var headers = context.Request.Headers;
        var byHeader = headers.ContainsKey("x-actor") || headers.ContainsKey("x-actor-bin") || headers.ContainsKey("x-role");
        var name = (byHeader ? StatedName(headers) : Decoded(context.Request.Cookies[NameCookie]))?.Trim() ?? "";
        var word = byHeader ? headers["x-role"].FirstOrDefault() : context.Request.Cookies[RoleCookie];
        if (name.Length is 0 or > MostCharacters || word is null || !Roles.ByWord.TryGetValue(word, out var role))
        {
            var missing = name.Length is 0 or > MostCharacters ? (Said)"x-actor (who acts, by name)" : $"x-role ({Roles.Words})";
            return new CallerAnswer(null, Code.Unauthenticated, "CALLER_NOT_STATED", $"the request's metadata does not say {missing}; nothing was done");
        }

        return new CallerAnswer(new Caller(name, role));
    }

    // Plain metadata carries ASCII only; a name in any other letters comes as bytes.
    private static string? StatedName(IHeaderDictionary headers) => headers["x-actor"].FirstOrDefault() ?? Decoded(headers["x-actor-bin"].FirstOrDefault());

    private static string? Decoded(string? base64)
    {
        try
        {
            return base64 is null ? null : new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(Convert.FromBase64String(base64.PadRight((base64.Length + 3) / 4 * 4, '=')));
        }
        catch (Exception error) when (error is FormatException or ArgumentException)
        {
            return null;
        }
    }
}

/// <summary>Who a caller has proven to be.</summary>
/// <param name="Name">The name.</param>
/// <param name="Roles">The roles that the identity gives.</param>
/// <param name="How">By what.</param>
public sealed record ProvenIdentity(string Name, IReadOnlyList<Role> Roles, Identity How);
