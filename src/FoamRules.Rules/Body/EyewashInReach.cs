using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Body;

/// <summary>body.eyewash-in-reach: an eyewash is reached in time, flows enough for long enough, and its water is tepid.</summary>
public sealed class EyewashInReach : Requirement<AreaFacts>
{
    private readonly Limit _reach;
    private readonly Limit _flow;
    private readonly Limit _lasts;
    private readonly Limit _coldest;
    private readonly Limit _warmest;

    /// <summary>The requirement as the rule sets state it.</summary>
    public EyewashInReach(RequirementSpec spec)
        : base(spec)
    {
        _reach = Need("reach");
        _flow = Need("flow");
        _lasts = Need("lasts");
        _coldest = Need("water.coldest");
        _warmest = Need("water.warmest");
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.SkinAndEyeContact;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer) => bearer.Area.Eyewash is { } eyewash
        ? Verdict.Worst(
        [
            Part(eyewash.Reach, _reach, eyewash, nameof(Eyewash.Reach), "too-far"),
            Part(eyewash.Flow, _flow, eyewash, nameof(Eyewash.Flow), "too-little"),
            Part(eyewash.Lasts, _lasts, eyewash, nameof(Eyewash.Lasts), "too-short"),
            Part(eyewash.WaterTemperature, _coldest, eyewash, nameof(Eyewash.WaterTemperature), "too-cold"),
            Part(eyewash.WaterTemperature, _warmest, eyewash, nameof(Eyewash.WaterTemperature), "too-warm"),
        ])
        : Verdict.Missing(bearer.Area, nameof(WorkArea.Eyewash));

    private static Verdict Part(IQuantity? value, Limit limit, Eyewash eyewash, string property, string otherwise)
    {
        if (value is null)
        {
            return Verdict.Missing(eyewash, property);
        }

        var verdict = Hold(value, limit).On(eyewash, property, value);
        return verdict.Outcome == Outcome.NotMet ? verdict.Saying(otherwise) : verdict;
    }
}
