using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Records;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Pages.Reviews;

/// <summary>
/// Who calls a page; nothing else of the pages asks. Where callers must prove who they are, it is who they have proven to be.
/// Elsewhere it is what a person has stated in a form: the record says so, and says that nobody proved it.
/// </summary>
internal static class WhoCalls
{
    /// <summary>The longest name.</summary>
    public const int MostCharacters = Callers.MostCharacters;

    /// <summary>Who calls; null: nobody has said so.</summary>
    public static Caller? Of(HttpContext http) => Callers.CallerOf(http);

    /// <summary>Keeps what a person has stated.</summary>
    public static void State(HttpContext http, string name, Role role) => Callers.State(http, name, role);

    /// <summary>The role of a word; null: there is none.</summary>
    public static Role? RoleOf(string? word) => word is not null && Roles.ByWord.TryGetValue(word, out var role) ? role : null;

    /// <summary>The word of a role.</summary>
    public static string WordOf(Role role) => Roles.WordOf(role);
}
