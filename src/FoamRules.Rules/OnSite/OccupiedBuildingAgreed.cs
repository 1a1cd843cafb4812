using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>
/// site.occupied-building-agreed: in a school, hospital, care home, food plant or housing that is used during the work, the owner
/// signed a plan that says what must be said. The sector's officer is asked for in hospitals, care homes and food plants.
/// </summary>
public sealed class OccupiedBuildingAgreed(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer)
    {
        if (bearer.Site.Occupied == false)
        {
            return "not-occupied";
        }

        return bearer.Site.Use is null or BuildingUse.School or BuildingUse.Hospital or BuildingUse.Care or BuildingUse.FoodPlant or BuildingUse.Housing ? null : "other-use";
    }

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        var site = bearer.Site;
        var verdict = site.OwnerAgreement is { } agreement
            ? Confirmation.All(PartsOf(agreement, site.Use))
            : Verdict.Missing(site, nameof(Site.OwnerAgreement));
        return verdict.OnceKnown(UnknownsOf(site));
    }

    private static ImmutableArray<Confirmation> PartsOf(OwnerAgreement agreement, BuildingUse? use)
    {
        ImmutableArray<Confirmation> parts =
        [
            new(agreement.Signed, agreement, nameof(OwnerAgreement.Signed), "the owner's signature"),
            new(agreement.SaysWhoLeavesAndWhen, agreement, nameof(OwnerAgreement.SaysWhoLeavesAndWhen), "who leaves and when"),
            new(agreement.SaysWhichAirHandlersStop, agreement, nameof(OwnerAgreement.SaysWhichAirHandlersStop), "which air handlers stop"),
            new(agreement.SaysWhatIsSealed, agreement, nameof(OwnerAgreement.SaysWhatIsSealed), "what is sealed"),
            new(agreement.OpenProductOut, agreement, nameof(OwnerAgreement.OpenProductOut), "food, medicine and open product out"),
            new(agreement.NamesOdourContact, agreement, nameof(OwnerAgreement.NamesOdourContact), "whom to call about odour"),
        ];
        return use is BuildingUse.School or BuildingUse.Housing
            ? parts
            : parts.Add(new(agreement.SectorOfficerAgreed, agreement, nameof(OwnerAgreement.SectorOfficerAgreed), "the infection-control or food-safety officer's word"));
    }

    private static IEnumerable<FieldRef> UnknownsOf(Site site)
    {
        if (site.Occupied is null)
        {
            yield return new FieldRef(site, nameof(Site.Occupied));
        }

        if (site.Use is null)
        {
            yield return new FieldRef(site, nameof(Site.Use));
        }
    }
}
