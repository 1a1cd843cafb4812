using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.hot-work-clear: no hot work within the clear distance while foam is applied, uncured or its vapours remain; afterwards
/// hot work within it has a watch, a shield, an extinguisher and the far side watched. Hot work on a filled member is reported
/// by fire.no-welding-on-filled-section, and recorded here.
/// </summary>
public sealed class HotWorkClear : Requirement<AreaFacts>
{
    private readonly Limit _clear;
    private readonly Limit _watch;
    private readonly Limit _watchBefore;
    private readonly Limit _changed;

    /// <summary>Reads its limits.</summary>
    public HotWorkClear(RequirementSpec spec)
        : base(spec)
    {
        _clear = Need("clear-distance");
        _watch = Need("watch.now");
        _watchBefore = Need("watch.before-that-edition");
        _changed = Need("watch.changed-with-edition");
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Ignition;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (bearer.Area.HotWork is not { } list)
        {
            return Verdict.Missing(bearer.Area, nameof(WorkArea.HotWork));
        }

        // What only this requirement reports comes first.
        var nearFoam = Verdict.Worst(list.Items.Where(item => !IsOnFilledMember(item, bearer)).Select(item => Judge(item, bearer)));
        return nearFoam.Outcome == Outcome.Met && list.Items.FirstOrDefault(item => IsOnFilledMember(item, bearer)) is { } onMember
            ? Verdict.NotMet("on-member").On(onMember, nameof(HotWork.Member)).With("name", NameOf(onMember)).AtTier("reported-elsewhere")
            : nearFoam;
    }

    private static bool IsOnFilledMember(HotWork item, AreaFacts bearer) =>
        item.Timing is HotWorkTiming.DuringFoam or HotWorkTiming.AfterCure && NoWeldingOnFilledSection.IsOnFilledMember(item, bearer.Job);

    private static Measure NameOf(HotWork item) => Spoken.NameOr(item.Name, "hot work");

    private Verdict Judge(HotWork item, AreaFacts bearer)
    {
        var verdict = item.Timing switch
        {
            null => Verdict.Missing(item, nameof(HotWork.Timing)),
            HotWorkTiming.BeforeFoam => Verdict.Met().On(item, nameof(HotWork.Timing)),
            HotWorkTiming.DuringFoam => Part.Hold(item, nameof(HotWork.DistanceToFoam), item.DistanceToFoam, _clear, "during"),
            _ => AfterCure(item, bearer.Job.Site),
        };
        return verdict.With("name", NameOf(item));
    }

    private Verdict AfterCure(HotWork item, Site site)
    {
        // A distance that is not given is taken as near.
        if (item.DistanceToFoam is { } distance && Hold(distance, _clear) is { Outcome: Outcome.Met } far)
        {
            return far.On(item, nameof(HotWork.DistanceToFoam), distance);
        }

        return Verdict.Worst([
            Answer.Yes(item.FireWatch, item, nameof(HotWork.FireWatch), "no-watch"),
            Answer.Yes(item.Shielded, item, nameof(HotWork.Shielded), "no-shield"),
            Answer.Yes(item.ExtinguisherAtHand, item, nameof(HotWork.ExtinguisherAtHand), "no-extinguisher"),
            Answer.Yes(item.FarSideWatched, item, nameof(HotWork.FarSideWatched), "far-side"),
            Part.Hold(item, nameof(HotWork.WatchAfter), item.WatchAfter, WatchOf(site), "watch-too-short"),
        ]);
    }

    // The longer watch stands unless the plan names an edition of a code that still asks for the shorter one.
    private Limit WatchOf(Site site) =>
        site is { BuildingCode: BuildingCode.Ibc or BuildingCode.Irc, CodeEdition: { } edition } && edition < _changed.Count ? _watchBefore : _watch;
}
