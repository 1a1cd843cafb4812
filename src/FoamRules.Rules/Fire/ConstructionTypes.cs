using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>Whether a clause of the code speaks of the building's type of construction.</summary>
internal static class ConstructionTypes
{
    /// <summary>Met where the type is one of those listed, undetermined where it is not given.</summary>
    public static Verdict Among(Site site, Limit types) => site.ConstructionType switch
    {
        null => Verdict.Missing(site, nameof(Site.ConstructionType)),
        { } type when types.Words.Contains(type.ToString().ToUpperInvariant()) => Verdict.Met().On(site, nameof(Site.ConstructionType)),
        _ => Verdict.NotMet("construction-type").On(site, nameof(Site.ConstructionType)),
    };

    /// <summary>Met where the type is none of those listed, undetermined where it is not given.</summary>
    public static Verdict NotAmong(Site site, Limit types) => Among(site, types) switch
    {
        { Outcome: Outcome.Met } => Verdict.NotMet("construction-type").On(site, nameof(Site.ConstructionType)),
        { Outcome: Outcome.NotMet } => Verdict.Met().On(site, nameof(Site.ConstructionType)),
        var unknown => unknown,
    };
}
