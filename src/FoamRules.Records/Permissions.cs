using FoamRules.Contracts.V1;

namespace FoamRules.Records;

/// <summary>Which role may call which method of ReviewService. A method that is not named here, nobody may call.</summary>
public static class Permissions
{
    private static readonly Role[] Everyone = [Role.Office, Role.SafetyOfficer, Role.CrewLead, Role.Reader];

    private static readonly Dictionary<string, Role[]> Allowed = new(StringComparer.Ordinal)
    {
        ["SubmitPlan"] = [Role.Office, Role.SafetyOfficer],
        ["RevisePlan"] = [Role.Office, Role.SafetyOfficer],
        ["SignOff"] = [Role.SafetyOfficer],
        ["GetReview"] = Everyone,
        ["ListReviews"] = Everyone,
        ["AddComment"] = [Role.Office, Role.SafetyOfficer, Role.CrewLead],
        // Which hold in which role is for the finding to say.
        ["ReleaseHold"] = [Role.Office, Role.SafetyOfficer, Role.CrewLead],
        ["NoteCaution"] = [Role.Office, Role.SafetyOfficer, Role.CrewLead],
        ["CheckPreStart"] = [Role.SafetyOfficer, Role.CrewLead],
        ["CloseOut"] = [Role.Office, Role.SafetyOfficer, Role.CrewLead],
        // By whom is for the requirement to say; a crew lead never releases what is about air.
        ["ReleaseReentry"] = [Role.Office, Role.SafetyOfficer],
        ["ReplayReviews"] = [Role.Office, Role.SafetyOfficer, Role.Reader],
        ["VerifyLog"] = [Role.Office, Role.SafetyOfficer, Role.Reader],
        ["ExportLog"] = [Role.Office, Role.SafetyOfficer, Role.Reader],
    };

    /// <summary>True where a role may call a method.</summary>
    public static bool May(Role role, string method) => Allowed.TryGetValue(method, out var roles) && roles.Contains(role);

    /// <summary>The roles that may call a method.</summary>
    public static IReadOnlyList<Role> Of(string method) => Allowed.GetValueOrDefault(method, []);
}
