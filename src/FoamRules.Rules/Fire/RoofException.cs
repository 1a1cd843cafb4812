using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>The codes' exception for foam above a roof deck: no covering below where the covering assembly is classed and a panel or a test stands behind it.</summary>
internal static class RoofException
{
    /// <summary>Met where the assembly is classed, and has the panel or has passed the test.</summary>
    public static Verdict Judge(WorkFacts work, CodeLimits code)
    {
        var fire = work.Fire;
        if (fire.RoofAssembly is not { } roof)
        {
            return Verdict.Missing(fire, nameof(FireSituation.RoofAssembly));
        }

        return Verdict.Worst([Answer.Yes(roof.Classed, roof, nameof(RoofAssembly.Classed), "not-classed"), PanelOrTest(roof, code)]);
    }

    private static Verdict PanelOrTest(RoofAssembly roof, CodeLimits code)
    {
        if (roof.PassedNfpa276OrUl1256 is true)
        {
            return Verdict.Met().On(roof, nameof(RoofAssembly.PassedNfpa276OrUl1256));
        }

        var panel = Part.Hold(roof, nameof(RoofAssembly.WoodPanel), roof.WoodPanel, code.Find("panel"), "panel");
        return panel.Outcome == Outcome.NotMet && roof.PassedNfpa276OrUl1256 is null
            ? Verdict.Missing(roof, nameof(RoofAssembly.PassedNfpa276OrUl1256))
            : panel;
    }
}
