using FoamRules.Model;

namespace FoamRules.Rules.Products;

/// <summary>How a sentence names a lot.</summary>
internal static class LotName
{
    /// <summary>The lot's number, or that it has none.</summary>
    public static string Of(Lot lot) => lot.Id is { Length: > 0 } id ? id : "without a number";
}
