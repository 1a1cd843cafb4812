using FoamRules.Contracts.V1;
using Said = FoamRules.Model.Said;

namespace FoamRules.Records.Reviews;

/// <summary>
/// Who may release a hold in which role. Four roles call; findings name more roles than that. Who is not on the
/// telephone, such as an engineer, decides on paper: the caller then names who decided and where it is written.
/// </summary>
public static class ReleaseRules
{
    /// <summary>The role of those who answer for safety.</summary>
    public const string SafetyOfficer = "safety officer";

    /// <summary>The role of someone named for this, who knows the hazard and may stop the work.</summary>
    public const string CompetentPerson = "competent person";

    /// <summary>The requirement on when other trades come back.</summary>
    public const string TradesReentry = "air.trades-reentry-long-enough";

    /// <summary>The requirement on when occupants come back.</summary>
    public const string OccupantsReentry = "air.occupants-return-long-enough";

    private static readonly string[] OnPaper = ["engineer of record", "authority having jurisdiction", "owner"];

    // What can hurt a person at once is not for the one whose day depends on it.
    private static readonly string[] NeverForACrewLead = ["body", "air", "height"];

    /// <summary>Why this caller may not release this hold; null: the caller may.</summary>
    /// <param name="caller">In which role the caller calls.</param>
    /// <param name="requirement">The requirement's id.</param>
    /// <param name="named">The roles that the finding names.</param>
    /// <param name="actingAs">The role in which it is to be released.</param>
    /// <param name="decidedBy">Who decided; empty: the caller.</param>
    /// <param name="reference">Where that is written; empty: nowhere.</param>
    public static Said? WhyNot(Role caller, string requirement, IReadOnlyCollection<string> named, string actingAs, string decidedBy, string reference)
    {
        if (!named.Contains(actingAs))
        {
            return named.Count == 0
                ? (Said)"nobody may release it; only a changed fact cures it"
                : $"the finding names {All(named)}, not `{actingAs}`";
        }

        var topic = requirement.Split('.')[0];
        if (caller == Role.CrewLead && NeverForACrewLead.Contains(topic))
        {
            return $"a crew lead never releases a hold on {topic}; ask one of {All(named)}";
        }

        if (!Routes(caller).Contains(actingAs))
        {
            return $"a caller with the role {(Said)Words.Of(caller)} cannot release as {(Said)actingAs}";
        }

        if (caller == Role.SafetyOfficer && actingAs == SafetyOfficer)
        {
            return null;
        }

        return decidedBy.Trim().Length > 0 && reference.Trim().Length > 0 ? null
            : actingAs == CompetentPerson ? (Said)"name the competent person in decided_by, and in reference the paper that says so"
            : $"name in decided_by who decided as {(Said)actingAs}, and in reference where it is written";
    }

    private static Said All(IEnumerable<string> roles) => Said.Join(", ", roles.Select(role => (Said)role));

    private static string[] Routes(Role caller) => caller switch
    {
        Role.SafetyOfficer => [SafetyOfficer, CompetentPerson, .. OnPaper],
        Role.Office => OnPaper,
        Role.CrewLead => [CompetentPerson],
        _ => [],
    };
}
