using FoamRules.Model;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>The picture of a calculation, where the request asks for one.</summary>
internal static class DrawnPicture
{
    /// <summary>The picture as SVG; empty where none is asked for.</summary>
    /// <exception cref="RefusedException">The calculation was refused.</exception>
    public static string Of(Contract.DisplayUnits asked, Func<DisplayUnits, Calculated<string>> draw) =>
        asked == Contract.DisplayUnits.Unspecified ? "" : Working.ValueOf(draw((DisplayUnits)asked));
}
