using FoamRules.Model;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Reviews;

/// <summary>Where a person says who they are and in which role they act.</summary>
internal static class WhoPage
{
    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/who", (HttpContext http, PageRenderer renderer) =>
            Show(http, renderer, WhoCalls.Of(http)?.Name ?? "", WhoCalls.Of(http) is { } caller ? WhoCalls.WordOf(caller.Role) : "", Back(http.Request.Query["back"]), [], StatusCodes.Status200OK));
        pages.MapPost("/who", Posted);
    }

    /// <summary>The way to this page and back.</summary>
    public static string From(string path) => $"/who{QueryString.Create("back", path)}";

    private static async Task<IResult> Posted(HttpContext http, PageRenderer renderer)
    {
        var words = PageContext.Of(http).Words;
        var (form, problem, status) = await PostedForm.Read(http, words).ConfigureAwait(false);
        if (form is null)
        {
            return await Show(http, renderer, "", "", "/reviews", [problem!], status).ConfigureAwait(false);
        }

        var (name, role, back) = (form["name"].ToString().Trim(), form["role"].ToString(), Back(form["back"]));
        var wrong = new List<Violation>();
        if (name.Length is 0 or > WhoCalls.MostCharacters)
        {
            wrong.Add(new Violation("name", name.Length == 0 ? words["who-no-name"] : words["who-long-name"], words["who-name-allowed", ("most", $"{WhoCalls.MostCharacters}")], words["who-name-remedy"]));
        }

        if (WhoCalls.RoleOf(role) is null)
        {
            wrong.Add(new Violation("role", words["who-no-role"], string.Join(", ", WhoCalls.Roles.Select(pair => words[$"role-{pair.Word}"])), words["who-role-remedy"]));
        }

        if (wrong.Count > 0)
        {
            return await Show(http, renderer, name, role, back, wrong, StatusCodes.Status422UnprocessableEntity).ConfigureAwait(false);
        }

        WhoCalls.State(http, name, WhoCalls.RoleOf(role)!.Value);
        return SeeOther.To(back);
    }

    private static Task<IResult> Show(HttpContext http, PageRenderer renderer, string name, string role, string back, IReadOnlyList<Violation> violations, int status) =>
        renderer.Answer<WhoView>(PageContext.Of(http), new() { [nameof(WhoView.Name)] = name, [nameof(WhoView.Role)] = role, [nameof(WhoView.Back)] = back, [nameof(WhoView.Violations)] = violations }, status);

    // Only to a page of this site.
    private static string Back(string? path) => path is ['/', not ('/' or '\\'), ..] && !path.Contains('\\', StringComparison.Ordinal) && !path.Any(char.IsControl) ? path : "/reviews";
}
