using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Body;

/// <summary>The requirements of the topic <c>body</c>: what each person wears and knows.</summary>
public static class BodyRequirements
{
    /// <summary>How to make each requirement, by id.</summary>
    public static ImmutableDictionary<string, Func<RequirementSpec, IRequirement>> Makers { get; } = new Dictionary<string, Func<RequirementSpec, IRequirement>>
    {
        ["body.respirator-protects-enough"] = spec => new RespiratorProtectsEnough(spec),
        ["body.hood-has-evidence"] = spec => new HoodHasEvidence(spec),
        ["body.fit-tested"] = spec => new FitTested(spec),
        ["body.seal-clear"] = spec => new SealClear(spec),
        ["body.breathing-air-clean"] = spec => new BreathingAirClean(spec),
        ["body.no-bare-skin"] = spec => new NoBareSkin(spec),
        ["body.eyes-covered"] = spec => new EyesCovered(spec),
        ["body.ears-covered"] = spec => new EarsCovered(spec),
        ["body.eyewash-in-reach"] = spec => new EyewashInReach(spec),
        ["body.trained-on-isocyanates"] = spec => new TrainedOnIsocyanates(spec),
        ["body.not-sensitised"] = spec => new NotSensitised(spec),
        ["body.medically-cleared"] = spec => new MedicallyCleared(spec),
        ["body.health-watched"] = spec => new HealthWatched(spec),
        ["body.heat-managed"] = spec => new HeatManaged(spec),
        ["body.trimming-protected"] = spec => new TrimmingProtected(spec),
    }.ToImmutableDictionary();
}
