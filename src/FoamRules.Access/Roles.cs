using FoamRules.Contracts.V1;

namespace FoamRules.Access;

/// <summary>The words by which roles are stated.</summary>
public static class Roles
{
    /// <summary>The roles by their words.</summary>
    public static IReadOnlyDictionary<string, Role> ByWord { get; } = new Dictionary<string, Role>(StringComparer.Ordinal)
    {
        ["office"] = Role.Office,
        ["safety-officer"] = Role.SafetyOfficer,
        ["crew-lead"] = Role.CrewLead,
        ["reader"] = Role.Reader,
    };

    /// <summary>All words, for a sentence.</summary>
    public static string Words => string.Join(", ", ByWord.Keys);

    /// <summary>The word of a role.</summary>
    public static string WordOf(Role role) => ByWord.First(pair => pair.Value == role).Key;
}
