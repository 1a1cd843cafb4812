using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Height;

/// <summary>
/// height.confined-space-classified: a competent person has classified attics, crawl spaces, vaults and whatever else may be a
/// confined space; its air is in range; isocyanate above its limit makes it a permit space; and a permit space has what it needs.
/// A gas test must be there at pre-start; before that one is judged where it is given.
/// </summary>
public sealed class ConfinedSpaceClassified(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly Limit _leastOxygen = spec.Limits["oxygen.least"];
    private readonly Limit _mostOxygen = spec.Limits["oxygen.most"];
    private readonly Limit _gas = spec.Limits["flammable-gas"];
    private readonly Limit _byVolume = spec.Limits["isocyanate.by-volume"];
    private readonly Limit _byMass = spec.Limits["isocyanate.by-mass"];

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.NoWayOut;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) =>
        bearer.Area is { ConfinedSpace: null, BuildingPart: BuildingPart.Room or BuildingPart.Basement or BuildingPart.Outside } ? "open-place" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (bearer.Area.ConfinedSpace is not { } space)
        {
            return Verdict.Missing(bearer.Area, bearer.Area.BuildingPart is null ? nameof(WorkArea.BuildingPart) : nameof(WorkArea.ConfinedSpace));
        }

        return Verdict.Worst([AirInRange(bearer, space), RightClass(bearer, space), PermitParts(space), Decided(space)]);
    }

    private static Verdict Decided(ConfinedSpace space)
    {
        if (space.Classification is null)
        {
            return Verdict.Missing(space, nameof(ConfinedSpace.Classification));
        }

        return string.IsNullOrWhiteSpace(space.ClassifiedBy)
            ? Verdict.Missing(space, nameof(ConfinedSpace.ClassifiedBy))
            : Verdict.Met().On(space, nameof(ConfinedSpace.Classification)).On(space, nameof(ConfinedSpace.ClassifiedBy));
    }

    private Verdict AirInRange(AreaFacts bearer, ConfinedSpace space)
    {
        var tests = StandingReadings.In(bearer, ReadingKind.GasTest);
        var mustBeTested = bearer.Stage == Stage.PreStart && space.Classification is not ConfinedSpaceClass.NotConfined;
        return tests.IsEmpty && mustBeTested ? StandingReadings.None(bearer, "oxygen and flammable gas") : Verdict.Worst(tests.Select(AirOf));
    }

    private Verdict AirOf(Reading test)
    {
        var oxygen = test.Oxygen is { } share
            ? Verdict.Worst([Hold(share, _leastOxygen).Saying("little-oxygen"), Hold(share, _mostOxygen).Saying("much-oxygen")]).On(test, nameof(Reading.Oxygen), share)
            : Verdict.Missing(test, nameof(Reading.Oxygen));
        var gas = test.LowerFlammableLimit is { } part
            ? Hold(part, _gas).Saying("flammable-gas").On(test, nameof(Reading.LowerFlammableLimit), part)
            : Verdict.Missing(test, nameof(Reading.LowerFlammableLimit));
        return Verdict.Worst([oxygen, gas]);
    }

    // Foam work can put more isocyanate into the air than its limit allows; a confined space is then a permit space.
    private Verdict RightClass(AreaFacts bearer, ConfinedSpace space)
    {
        if (space.Classification != ConfinedSpaceClass.Confined)
        {
            return Verdict.Met();
        }

        var levels = bearer.Area.AirborneLevels.Where(level => level.Substance == Substance.Mdi).ToList();
        return levels.Count == 0
            ? Verdict.Missing(bearer.Area, nameof(WorkArea.AirborneLevels))
            : Verdict.Worst(levels.Select(BelowLimit));
    }

    private Verdict BelowLimit(AirborneLevel level)
    {
        var byVolume = level.PeakByVolume is { } parts ? Hold(parts, _byVolume).On(level, nameof(AirborneLevel.PeakByVolume), parts) : null;
        var byMass = level.PeakByMass is { } mass ? Hold(mass, _byMass).On(level, nameof(AirborneLevel.PeakByMass), mass) : null;
        Verdict[] peaks = [.. new[] { byVolume, byMass }.OfType<Verdict>()];
        return peaks.Length == 0 ? Verdict.Missing(level, nameof(AirborneLevel.PeakByMass)) : Verdict.Worst(peaks).Saying("permit-space");
    }

    private static Verdict PermitParts(ConfinedSpace space) => space.Classification != ConfinedSpaceClass.PermitRequired
        ? Verdict.Met()
        : Confirmation.All(
            new Confirmation(space.Permit, space, nameof(ConfinedSpace.Permit), "a written permit"),
            new Confirmation(space.Attendant, space, nameof(ConfinedSpace.Attendant), "an attendant outside"),
            new Confirmation(space.ContinuousMonitoring, space, nameof(ConfinedSpace.ContinuousMonitoring), "oxygen, flammable gas and carbon monoxide measured all the time"),
            new Confirmation(space.AirSuppliedSets, space, nameof(ConfinedSpace.AirSuppliedSets), "air-supplied sets for all inside"),
            new Confirmation(space.OtherWorkStopped, space, nameof(ConfinedSpace.OtherWorkStopped), "others' work stopped"));
}
