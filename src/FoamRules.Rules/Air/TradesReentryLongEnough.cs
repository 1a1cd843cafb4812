using FoamRules.Model;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.trades-reentry-long-enough: other trades come back no sooner than the longest of the data sheet's time, the rule set's
/// and the computed purge. No general figure is published, so general practice gives none.
/// </summary>
public sealed class TradesReentryLongEnough(RequirementSpec spec) : ReentryRequirement(spec, "mdi-level-for-trades")
{
    /// <inheritdoc/>
    public override string ClockKey => "clock-trades";

    private protected override string SheetProperty => nameof(Product.TradesReentry);

    private protected override Duration? OnSheet(Product sheet) => sheet.TradesReentry;

    private protected override (DateTimeOffset? Value, string Property) At(Reentry reentry) => (reentry.TradesAt, nameof(Reentry.TradesAt));

    private protected override (Duration? Value, string Property) After(Reentry reentry) => (reentry.TradesAfter, nameof(Reentry.TradesAfter));
}
