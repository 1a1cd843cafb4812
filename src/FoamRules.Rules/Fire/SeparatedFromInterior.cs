using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// fire.separated-from-interior: the covering that the place needs is planned, and is one under the code by material,
/// thickness and fastening. A thermal barrier is needed unless an exception of the code fits; where the exception is one that a
/// requirement of its own judges and its failure is the only fault, that requirement reports it and this one records it,
/// except at close-out, where only this one stops.
/// Left out: walk-in coolers without sprinklers, doors, siding backer board, trim and signs, whose text nobody read.
/// </summary>
public sealed class SeparatedFromInterior(RequirementSpec spec) : CodeRequirement(spec)
{
    /// <summary>Its id.</summary>
    public const string Id = "fire.separated-from-interior";

    private const string ReportedElsewhere = "reported-elsewhere";

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.FoamThatBurns;

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => FoamPlace.Of(bearer) is FoamLocation.Outside ? "outside" : null;

    /// <inheritdoc/>
    private protected override Verdict Judge(WorkFacts bearer, CodeLimits code)
    {
        if (TooDense(bearer, code) is { } refer)
        {
            return refer;
        }

        var thermal = ThermalBarrier.Judge(bearer.Fire, code);
        if (thermal.Outcome == Outcome.Met)
        {
            return thermal;
        }

        if (FoamPlace.Of(bearer) is not { } place)
        {
            return Verdict.Missing(bearer.Fire, nameof(FireSituation.Location));
        }

        var verdict = ByPlace(bearer, code, place, thermal);
        return SpecialApproval.IsUsed(bearer) && verdict.Outcome is Outcome.NotMet or Outcome.Undetermined ? ByApproval(bearer, verdict) : verdict;
    }

    // Foam denser than the code's term covers is not exempt: somebody has to decide.
    private static Verdict? TooDense(WorkFacts bearer, CodeLimits code)
    {
        var (density, node, property) = FoamDensity.Of(bearer);
        return density is { } known && code.Find("foam-plastic-below") is { } below && Quantities.Compare(known, below.Value.Quantity!) >= 0
            ? Verdict.Undetermined("too-dense").On(node, property, known).With("density", known).RestingOn(below)
            : null;
    }

    // A report for the finished assembly takes the covering's place. Appendix X has been counted under its place already.
    private static Verdict ByApproval(WorkFacts bearer, Verdict otherwise)
    {
        var approval = SpecialApproval.Judge(bearer);
        return approval.Outcome switch
        {
            Outcome.Met => SpecialApproval.IsForIgnitionBarrierOnly(bearer) ? otherwise : approval,
            Outcome.NotMet => otherwise.Outcome == Outcome.NotMet ? otherwise.AtTier(ReportedElsewhere) : otherwise,
            _ => approval,
        };
    }

    private Verdict ByPlace(WorkFacts bearer, CodeLimits code, FoamLocation place, Verdict thermal)
    {
        var need = BarrierNeed.Of(bearer, place, code);
        var isServiceSpace = place is FoamLocation.Attic or FoamLocation.CrawlSpace;
        var ignition = isServiceSpace ? InServiceSpace(bearer, code, place) : null;
        switch (need.Exception)
        {
            case { Outcome: Outcome.Met } fits:
                return ignition ?? (Verdict.NotApplicable($"none-{code.Name}-{need.Place}") with { Evidence = fits.Evidence });
            case { Outcome: Outcome.Undetermined } unknown:
                // Whatever is missing, an attic or crawl space needs an ignition barrier at least.
                return ignition is { Outcome: Outcome.NotMet } ? ignition : unknown;
            default:
                return Needed(bearer, code, place, need, thermal, ignition);
        }
    }

    private Verdict Needed(WorkFacts bearer, CodeLimits code, FoamLocation place, BarrierNeed need, Verdict thermal, Verdict? ignition)
    {
        if (thermal.Outcome != Outcome.NotMet)
        {
            return thermal;
        }

        var verdict = thermal.Says != "not-fastened" && IgnitionBarrier.Judge(bearer.Fire, code, place).Outcome == Outcome.Met ? thermal.Saying("ignition-barrier") : thermal;
        var why = $"why-{need.Place}";
        verdict = Because(verdict, code, Said(Spec.Says.ContainsKey($"{why}-{need.Exception?.Says}") ? $"{why}-{need.Exception?.Says}" : why), CoveringNames.List(code.Group(ThermalBarrier.Group)), bearer);
        return IsReportedElsewhere(bearer, place, need, ignition) ? verdict.AtTier(ReportedElsewhere) : verdict;
    }

    // In an attic or crawl space whose exception fits: an ignition barrier, or an appendix X report that covers the work.
    private Verdict InServiceSpace(WorkFacts bearer, CodeLimits code, FoamLocation place)
    {
        if (SpecialApproval.IsForIgnitionBarrierOnly(bearer) && SpecialApproval.Judge(bearer) is { Outcome: Outcome.Met } covered)
        {
            return covered;
        }

        var ignition = IgnitionBarrier.Judge(bearer.Fire, code, place);
        return ignition.Outcome == Outcome.NotMet ? Because(ignition, code, Said("why-service-space"), IgnitionBarrier.List(code, place), bearer) : ignition;
    }

    // A part of the sentence that this requirement says itself.
    private Measure Said(string key) => Spoken.Of(key, Spec.Says[key]);

    // The source that a barrier is needed at all stands behind each finding, besides the limit of one material.
    private static Verdict Because(Verdict verdict, CodeLimits code, Measure why, Measure wouldDo, WorkFacts bearer)
    {
        var covering = bearer.Fire.Covering?.Material is { } material ? Spoken.Word(CoveringNames.Spoken(material)) : Spoken.Word("nothing");
        var said = verdict.With("why", why).With("would_do", wouldDo).With("covering", covering);
        return code.Find("thermal-barrier.gypsum-board") is { } basis ? said.RestingOn(basis) : said;
    }

    // One fault, one finding: the exception's own requirement speaks where the covering would do if the exception fitted.
    private static bool IsReportedElsewhere(WorkFacts bearer, FoamLocation place, BarrierNeed need, Verdict? ignition) => place switch
    {
        FoamLocation.SteelSection => bearer.Fire.BarrierOrApprovalRecorded is false,
        _ => need.HasOwnRequirement && ignition is null or { Outcome: Outcome.Met },
    };
}
