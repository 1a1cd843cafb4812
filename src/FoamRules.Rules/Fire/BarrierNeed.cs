using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>What a place asks for between foam and interior: a thermal barrier, unless an exception of the code fits.</summary>
/// <param name="Place">The place's key in the rule set's words.</param>
/// <param name="Exception">Whether the place's exception fits; null where the code has none.</param>
/// <param name="HasOwnRequirement">True where a requirement of its own judges the exception, and reports where it does not fit.</param>
internal sealed record BarrierNeed(string Place, Verdict? Exception, bool HasOwnRequirement = false)
{
    /// <summary>The need of a place.</summary>
    public static BarrierNeed Of(WorkFacts work, FoamLocation place, CodeLimits code) => place switch
    {
        FoamLocation.Room => new("room", null),
        FoamLocation.BasementOrGarage => new("basement", null),
        FoamLocation.Attic => new("attic", ServiceOnlyException.Judge(work, code.Of(AtticOrCrawlServiceOnly.Id)), true),
        FoamLocation.CrawlSpace => new("crawl-space", ServiceOnlyException.Judge(work, code.Of(AtticOrCrawlServiceOnly.Id)), true),
        FoamLocation.RimOrSill => new("rim", RimOrSillException.Judge(work, code.Of(RimAndSillExceptionFits.Id)), true),
        FoamLocation.Masonry => new("masonry", OtherExceptions.Masonry(work, code)),
        FoamLocation.Floor => new("floor", OtherExceptions.Floor(work, code)),
        FoamLocation.AboveRoofDeck => new("roof", RoofException.Judge(work, code.Of(RoofExceptionFits.Id)), true),
        FoamLocation.CoolerWall => new("cooler-wall", OtherExceptions.CoolerWall(work, code)),
        FoamLocation.OneStoreyMetalWall => new("one-storey-wall", OtherExceptions.OneStoreyWall(work, code)),
        FoamLocation.SteelSection => new("steel-section", null, true),
        FoamLocation.Concealed => new("concealed", null),
        _ => throw new ArgumentOutOfRangeException(nameof(place), place, "a place inside the building"),
    };

    /// <summary>Why the work does not lean on a place's exception, as a key; null where it does.</summary>
    public static string? WhyExceptionIsNotUsed(WorkFacts work, CodeLimits? code)
    {
        if (SpecialApproval.IsUsed(work) && !SpecialApproval.IsForIgnitionBarrierOnly(work))
        {
            return "approval-used";
        }

        return code is not null && ThermalBarrier.Judge(work.Fire, code.Of(SeparatedFromInterior.Id)).Outcome == Outcome.Met ? "thermal-barrier" : null;
    }
}
