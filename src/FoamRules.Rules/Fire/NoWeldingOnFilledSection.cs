using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>fire.no-welding-on-filled-section: hot work on a filled member, and on what touches it, is over before the first foam; none comes after.</summary>
public sealed class NoWeldingOnFilledSection(RequirementSpec spec) : Requirement<WorkFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <summary>True for hot work on a member that this job fills.</summary>
    public static bool IsOnFilledMember(HotWork item, JobFacts job) => job.Work.Any(work => work is FillFacts && work.Item.Id == item.Member);

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => bearer is FillFacts ? null : "not-filled";

    /// <inheritdoc/>
    protected override Verdict Judge(WorkFacts bearer)
    {
        var own = bearer.Area.Area;
        var onMember = bearer.Job.Areas.OrderBy(area => area.Area.Id, StringComparer.Ordinal)
            .SelectMany(area => area.Area.HotWork?.Items ?? []).Where(item => item.Member == bearer.Item.Id).Select(Judge);
        IEnumerable<Verdict> besides = own.HotWork is { } list ? list.Items.Where(MayBeOnMember).Select(Unplaced) : [Verdict.Missing(own, nameof(WorkArea.HotWork))];
        return Verdict.Worst([.. onMember, .. besides]);
    }

    // Who is to weld at the foam, or nobody knows how far from it, and does not say on what, may weld on the member.
    private static bool MayBeOnMember(HotWork item) =>
        item.Member is null && item.Timing is not HotWorkTiming.BeforeFoam && (item.DistanceToFoam is not { } distance || distance <= UnitsNet.Length.Zero);

    private static Verdict Unplaced(HotWork item) => Verdict.Missing(
        [new FieldRef(item, nameof(HotWork.Member)), .. item.DistanceToFoam is null ? [new FieldRef(item, nameof(HotWork.DistanceToFoam))] : Array.Empty<FieldRef>()]);

    private static Verdict Judge(HotWork item)
    {
        var verdict = item.Timing switch
        {
            null => Verdict.Missing(item, nameof(HotWork.Timing)),
            HotWorkTiming.BeforeFoam => Verdict.Met(),
            HotWorkTiming.DuringFoam => Verdict.NotMet("during"),
            _ => Verdict.NotMet("after"),
        };
        return verdict.On(item, nameof(HotWork.Timing)).With("name", Spoken.NameOr(item.Name, "hot work"));
    }
}
