using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.asbestos-surveyed: in an existing building a survey covers what the work touches, and what it found is abated or left untouched.</summary>
public sealed class AsbestosSurveyed(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HarmfulDust;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        var site = bearer.Site;
        var verdict = site.AsbestosSurvey is { } survey ? Surveyed(survey) : Verdict.Missing(site, nameof(Site.AsbestosSurvey));
        return verdict.OnceKnown(site.ExistingBuilding is null ? [new FieldRef(site, nameof(Site.ExistingBuilding))] : []);
    }

    private static Verdict Surveyed(AsbestosSurvey survey)
    {
        var made = Verdict.Confirmed(survey.Made, survey, nameof(AsbestosSurvey.Made), "no-survey");
        if (survey.Made == false)
        {
            return made;
        }

        var covers = Verdict.Confirmed(survey.CoversThisWork, survey, nameof(AsbestosSurvey.CoversThisWork), "not-covered");
        var dealtWith = survey.FoundAsbestos == true
            ? Verdict.Confirmed(survey.AbatedOrUntouched, survey, nameof(AsbestosSurvey.AbatedOrUntouched), "asbestos-touched")
            : NothingFound(survey);
        return Verdict.Worst([dealtWith, covers, made]);
    }

    private static Verdict NothingFound(AsbestosSurvey survey) => survey.FoundAsbestos is null
        ? Verdict.Missing(survey, nameof(AsbestosSurvey.FoundAsbestos))
        : Verdict.Met().On(survey, nameof(AsbestosSurvey.FoundAsbestos));
}
