using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.GearChecks;

/// <summary>
/// gear.hose-reaches: the hose covers rise and run from the rig to the furthest work with some slack, and is no longer than the rig
/// is rated for.
/// </summary>
public sealed class HoseReaches : Requirement<JobFacts>
{
    private readonly Limit _slack;

    /// <summary>The requirement as the rule sets state it.</summary>
    public HoseReaches(RequirementSpec spec)
        : base(spec) => _slack = Need("slack");

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PressureInGear;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Gear.Hose is not { } hose)
        {
            return Verdict.Missing(bearer.Gear, nameof(Gear.Hose));
        }

        return hose.Length is { } length
            ? Verdict.Worst([Reaches(hose, length), Rated(hose, length)]).On(hose, nameof(Hose.Length), length)
            : Verdict.Missing(hose, nameof(Hose.Length));
    }

    private Verdict Reaches(Hose hose, Length length)
    {
        if (hose is not { Rise: { } rise, Run: { } run })
        {
            return Verdict.Missing(hose, hose.Rise is null ? nameof(Hose.Rise) : nameof(Hose.Run));
        }

        var way = rise + run;
        var needed = way * (1 + _slack.As<Ratio>().DecimalFractions);
        var limit = _slack.Amounting(needed);
        return Hold(length, limit).Saying("too-short").With("way", way).With("slack", _slack.Value).On(hose, nameof(Hose.Rise), rise).On(hose, nameof(Hose.Run), run);
    }

    private static Verdict Rated(Hose hose, Length length) => hose.RatedLength is { } rated
        ? Hold(length, PlanLimit.Of(hose, nameof(Hose.RatedLength), rated, Tighter.Lower, SourceStatus.DataSheet)).Saying("too-long").On(hose, nameof(Hose.RatedLength), rated)
        : Verdict.Missing(hose, nameof(Hose.RatedLength));
}
