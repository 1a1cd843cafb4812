using System.Collections.Immutable;
using System.Text;
using FoamRules.Contracts.V1;
using FoamRules.Records;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Reviews;

/// <summary>
/// Who calls a page; nothing else of the pages asks. It is what a person has stated in a form, kept in two cookies: the record says
/// so, and says that nobody proved it.
/// </summary>
internal static class WhoCalls
{
    /// <summary>The longest name.</summary>
    public const int MostCharacters = 200;

    private const string NameCookie = "foamrules-name";
    private const string RoleCookie = "foamrules-role";

    /// <summary>The roles by the words that stand in forms.</summary>
    public static ImmutableArray<(string Word, Role Role)> Roles { get; } =
        [("office", Role.Office), ("safety-officer", Role.SafetyOfficer), ("crew-lead", Role.CrewLead), ("reader", Role.Reader)];

    /// <summary>Who calls; null: nobody has said so.</summary>
    public static Caller? Of(HttpContext http)
    {
        var name = Decoded(http.Request.Cookies[NameCookie]).Trim();
        return name.Length is > 0 and <= MostCharacters && RoleOf(http.Request.Cookies[RoleCookie]) is { } role ? new Caller(name, role) : null;
    }

    /// <summary>Keeps what a person has stated.</summary>
    public static void State(HttpContext http, string name, Role role)
    {
        var options = new CookieOptions { HttpOnly = true, SameSite = SameSiteMode.Strict, Secure = http.Request.IsHttps, Path = "/", IsEssential = true };
        http.Response.Cookies.Append(NameCookie, Convert.ToBase64String(Encoding.UTF8.GetBytes(name)), options);
        http.Response.Cookies.Append(RoleCookie, WordOf(role), options);
    }

    /// <summary>The role of a word; null: there is none.</summary>
    public static Role? RoleOf(string? word) => Roles.Where(pair => pair.Word == word).Select(pair => (Role?)pair.Role).FirstOrDefault();

    /// <summary>The word of a role.</summary>
    public static string WordOf(Role role) => Roles.First(pair => pair.Role == role).Word;

    private static string Decoded(string? base64)
    {
        try
        {
            return base64 is null ? "" : new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(Convert.FromBase64String(base64));
        }
        catch (Exception error) when (error is FormatException or ArgumentException)
        {
            return "";
        }
    }
}
