using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;

namespace FoamRules.Rules.OnSite;

/// <summary>site.trades-coordinated: other employers have the sheets, know zone, hot work and re-entry, and work outside the zone and the time.</summary>
public sealed class TradesCoordinated(RequirementSpec spec) : Requirement<JobFacts>(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.Unrecorded;

    /// <inheritdoc/>
    protected override string? WhyNot(JobFacts bearer) => bearer.Site.OtherTrades?.Present == false ? "no-other-trades" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(JobFacts bearer)
    {
        if (bearer.Site.OtherTrades is not { } trades)
        {
            return Verdict.Missing(bearer.Site, nameof(Site.OtherTrades));
        }

        return Confirmation.All(
            new Confirmation(trades.WorkOutsideZoneAndTime, trades, nameof(TradesCoordination.WorkOutsideZoneAndTime), "work outside the zone and the time"),
            new Confirmation(trades.HaveSafetyDataSheets, trades, nameof(TradesCoordination.HaveSafetyDataSheets), "the safety data sheets"),
            new Confirmation(trades.KnowExclusionZone, trades, nameof(TradesCoordination.KnowExclusionZone), "the exclusion zone"),
            new Confirmation(trades.KnowNoHotWork, trades, nameof(TradesCoordination.KnowNoHotWork), "no hot work near foam"),
            new Confirmation(trades.KnowReentryTime, trades, nameof(TradesCoordination.KnowReentryTime), "the clock time of re-entry"))
            .OnceKnown(trades.Present is null ? [new FieldRef(trades, nameof(TradesCoordination.Present))] : []);
    }
}
