using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// A requirement that rests on the building code: undetermined where the plan names no code, where it names one that the rule
/// sets do not know, and where no rule set in force carries the code's text.
/// </summary>
public abstract class CodeRequirement : Requirement<WorkFacts>
{
    private protected CodeRequirement(RequirementSpec spec)
        : base(spec)
    {
    }

    /// <inheritdoc/>
    protected sealed override Verdict Judge(WorkFacts bearer)
    {
        if (BeforeCode(bearer) is { } decided)
        {
            return decided;
        }

        var site = bearer.Job.Site;
        if (site.BuildingCode is null)
        {
            return Verdict.Missing(site, nameof(Site.BuildingCode));
        }

        if (CodeOf(bearer) is not { } code)
        {
            return Verdict.Undetermined("other-code").On(site, nameof(Site.BuildingCode));
        }

        return code.AreGiven ? Judge(bearer, code) : Part.NoTable().On(site, nameof(Site.BuildingCode));
    }

    /// <summary>What can be said whatever the code; null where only the code says.</summary>
    private protected virtual Verdict? BeforeCode(WorkFacts bearer) => null;

    /// <summary>The limits of the code that governs; null where the plan does not name one of which the rule sets know.</summary>
    private protected CodeLimits? CodeOf(WorkFacts bearer) => CodeLimits.Of(Spec, bearer.Job.Site);

    /// <summary>Judges under a code whose limits the rule sets carry.</summary>
    private protected abstract Verdict Judge(WorkFacts bearer, CodeLimits code);
}
