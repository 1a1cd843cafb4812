using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.light-and-no-lone-work: there is enough light, nobody is alone in the zone, and at night someone is checked in with and rescue is in reach.</summary>
public sealed class LightAndNoLoneWork(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _light = spec.Limits["light"];
    private readonly Limit _people = spec.Limits["people"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Strain;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => Verdict.Worst([Lit(bearer.Area), NotAlone(bearer.Area), SafeAtNight(bearer.Area)]);

    private Verdict Lit(WorkArea area) => area.Light is { } light
        ? Hold(light, _light).Saying("too-dark").On(area, nameof(WorkArea.Light), light)
        : Verdict.Missing(area, nameof(WorkArea.Light));

    private Verdict NotAlone(WorkArea area) => area.PeopleInZone is { } people
        ? Hold(people, _people).Saying("alone").On(area, nameof(WorkArea.PeopleInZone))
        : Verdict.Missing(area, nameof(WorkArea.PeopleInZone));

    private static Verdict SafeAtNight(WorkArea area) => area.NightWork switch
    {
        null => Verdict.Missing(area, nameof(WorkArea.NightWork)),
        false => Verdict.Met().On(area, nameof(WorkArea.NightWork)),
        true => Verdict.Confirmed(area.NightCheckIn, area, nameof(WorkArea.NightCheckIn), "no-check-in"),
    };
}
