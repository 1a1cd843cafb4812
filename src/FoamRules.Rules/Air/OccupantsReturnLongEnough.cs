using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// air.occupants-return-long-enough: occupants come back no sooner than the longest of the data sheet's time, the rule set's and
/// the computed purge; the area is cleaned, covers are off, and an odour that remains blocks. An odour that is gone proves nothing.
/// The layer for Canada asks for the time that the supplier of a light-density foam declares: the sheet's time, at least a day.
/// </summary>
public sealed class OccupantsReturnLongEnough(RequirementSpec spec) : ReentryRequirement(spec, "mdi-level-for-occupants")
{
    /// <inheritdoc/>
    public override string ClockKey => "clock-occupants";

    private protected override string SheetProperty => nameof(Product.OccupantsReentry);

    private protected override Duration? OnSheet(Product sheet) => sheet.OccupantsReentry;

    private protected override (DateTimeOffset? Value, string Property) At(Reentry reentry) => (reentry.OccupantsAt, nameof(Reentry.OccupantsAt));

    private protected override (Duration? Value, string Property) After(Reentry reentry) => (reentry.OccupantsAfter, nameof(Reentry.OccupantsAfter));

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var time = base.Judge(bearer);
        return bearer.Area.Reentry is not { } reentry ? time : Verdict.Worst(
        [
            time,
            Answer.Yes(reentry.Cleaned, reentry, nameof(Reentry.Cleaned), "not-cleaned"),
            Answer.Yes(reentry.CoversOff, reentry, nameof(Reentry.CoversOff), "covers-on"),
            Odour(bearer, reentry),
        ]);
    }

    // Whether there is an odour shows only when people are about to come back.
    private static Verdict Odour(AreaFacts bearer, Reentry reentry) => reentry.OdourRemains switch
    {
        true => Verdict.NotMet("odour").On(reentry, nameof(Reentry.OdourRemains)),
        null when bearer.AsBuilt => Verdict.Missing(reentry, nameof(Reentry.OdourRemains)),
        _ => Verdict.Met(),
    };
}
