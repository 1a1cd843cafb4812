using FoamRules.Access;
using FoamRules.Model;
using FoamRules.Pages.Site;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace FoamRules.Pages.Reviews;

/// <summary>Where a person says who they are and in which role they act; of whoever has proven the name, only the role is asked.</summary>
internal static class WhoPage
{
    private const string Otherwise = "/reviews";

    public static void Map(IEndpointRouteBuilder pages)
    {
        pages.MapGet("/who", (HttpContext http, PageRenderer renderer) =>
            Show(http, renderer, Callers.ProvenName(http) ?? WhoCalls.Of(http)?.Name ?? "", WhoCalls.Of(http) is { } caller ? WhoCalls.WordOf(caller.Role) : "", OwnPath.Of(http.Request.Query["back"], Otherwise), [], StatusCodes.Status200OK));
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
            return await Show(http, renderer, "", "", Otherwise, [problem!], status).ConfigureAwait(false);
        }

        var (name, role, back) = (Callers.ProvenName(http) ?? form["name"].ToString().Trim(), form["role"].ToString(), OwnPath.Of(form["back"], Otherwise));
        var wrong = new List<Violation>();
        if (name.Length is 0 or > WhoCalls.MostCharacters)
        {
            wrong.Add(new Violation("name", name.Length == 0 ? words["who-no-name"] : words["who-long-name"], words["who-name-allowed", ("most", $"{WhoCalls.MostCharacters}")], words["who-name-remedy"]));
        }

        if (WhoCalls.RoleOf(role) is not { } known || !Callers.RolesOf(http).Contains(known))
        {
            wrong.Add(new Violation("role", words["who-no-role"], string.Join(", ", Callers.RolesOf(http).Select(one => words[$"role-{WhoCalls.WordOf(one)}"])), words["who-role-remedy"]));
        }

        if (wrong.Count > 0)
        {
            return await Show(http, renderer, name, role, back, wrong, StatusCodes.Status422UnprocessableEntity).ConfigureAwait(false);
        }

        WhoCalls.State(http, name, WhoCalls.RoleOf(role)!.Value);
        return SeeOther.To(back);
    }

    private static Task<IResult> Show(HttpContext http, PageRenderer renderer, string name, string role, string back, IReadOnlyList<Violation> violations, int status) =>
        renderer.Answer<WhoView>(PageContext.Of(http), new()
        {
            [nameof(WhoView.Name)] = name,
            [nameof(WhoView.IsProven)] = Callers.ProvenName(http) is not null,
            [nameof(WhoView.Roles)] = Callers.RolesOf(http),
            [nameof(WhoView.Role)] = role,
            [nameof(WhoView.Back)] = back,
            [nameof(WhoView.Violations)] = violations,
        }, status);
}
