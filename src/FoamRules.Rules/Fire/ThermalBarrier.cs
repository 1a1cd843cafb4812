using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>Whether what stands between foam and interior is a thermal barrier under the code.</summary>
internal static class ThermalBarrier
{
    /// <summary>The group of its limits.</summary>
    public const string Group = "thermal-barrier";

    /// <summary>Met where a thermal barrier is there already, or the covering is one.</summary>
    public static Verdict Judge(FireSituation fire, CodeLimits code)
    {
        if (fire.BehindThermalBarrier is true)
        {
            return Verdict.Met().On(fire, nameof(FireSituation.BehindThermalBarrier));
        }

        if (fire.Covering is not { } covering)
        {
            return Verdict.Missing(fire, nameof(FireSituation.Covering));
        }

        return covering.Material switch
        {
            null => Verdict.Missing(covering, nameof(Covering.Material)),
            CoveringMaterial.None => Verdict.NotMet("bare").On(covering, nameof(Covering.Material)),
            { } material => Judge(covering, material, code),
        };
    }

    private static Verdict Judge(Covering covering, CoveringMaterial material, CodeLimits code)
    {
        var name = CoveringNames.Of(material);
        if (covering.ListedNfpa275 is true && code.Find($"{Group}.by-listing") is not null)
        {
            return Verdict.Met().On(covering, nameof(Covering.ListedNfpa275));
        }

        if (code.Find($"{Group}.by-kind") is { } kinds && kinds.Words.Contains(CoveringNames.Spoken(material)))
        {
            return Verdict.Met().On(covering, nameof(Covering.Material));
        }

        if (code.Find($"{Group}.{name}") is { } limit)
        {
            var thick = Part.Hold(covering, nameof(Covering.Thickness), covering.Thickness, limit, "too-thin");
            var fastened = Answer.Yes(covering.FastenedToStructure, covering, nameof(Covering.FastenedToStructure), "not-fastened");
            return Verdict.Worst([thick, fastened]);
        }

        // A coating is a barrier by its listing or not at all; any other material that is on no list is none.
        return material == CoveringMaterial.Coating && covering.ListedNfpa275 is null
            ? Verdict.Missing(covering, nameof(Covering.ListedNfpa275))
            : Verdict.NotMet("not-a-barrier").On(covering, nameof(Covering.Material));
    }
}
