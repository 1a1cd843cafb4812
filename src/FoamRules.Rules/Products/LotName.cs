using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Products;

/// <summary>How a sentence names a lot.</summary>
internal static class LotName
{
    /// <summary>The lot's number, or that it has none.</summary>
    public static Measure Of(Lot lot) => Spoken.NameOr(lot.Id, "without a number");
}
