using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>Whether a covering is an ignition barrier under the code, by material, thickness and place.</summary>
internal static class IgnitionBarrier
{
    private const string Everywhere = "ignition-barrier";

    /// <summary>Met where the covering is on the code's list for the place and thick enough.</summary>
    public static Verdict Judge(FireSituation fire, CodeLimits code, FoamLocation place)
    {
        if (fire.Covering is not { } covering)
        {
            return Verdict.Missing(fire, nameof(FireSituation.Covering));
        }

        if (covering.Material is not { } material)
        {
            return Verdict.Missing(covering, nameof(Covering.Material));
        }

        if (material == CoveringMaterial.None)
        {
            return Verdict.NotMet("ignition-bare").On(covering, nameof(Covering.Material));
        }

        var name = CoveringNames.Of(material);
        var limit = Groups(place).Select(group => code.Find($"{group}.{name}")).FirstOrDefault(found => found is not null);
        return limit is null
            ? Verdict.NotMet("ignition-not-listed").On(covering, nameof(Covering.Material))
            : Part.Hold(covering, nameof(Covering.Thickness), covering.Thickness, limit, "ignition-too-thin");
    }

    /// <summary>The code's list for a place, in words.</summary>
    public static Measure List(CodeLimits code, FoamLocation place) => CoveringNames.List(Groups(place).SelectMany(code.Group));

    private static string[] Groups(FoamLocation place) => [Everywhere, place == FoamLocation.CrawlSpace ? $"{Everywhere}-crawl-space" : $"{Everywhere}-attic"];
}
