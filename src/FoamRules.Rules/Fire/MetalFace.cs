using FoamRules.Model;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>The metal cover that some exceptions ask for.</summary>
internal static class MetalFace
{
    /// <summary>Met where the cover is of a metal that the group lists, and thick enough.</summary>
    public static Verdict Judge(FireSituation fire, CodeLimits code, string group)
    {
        if (fire.MetalCover is not { } cover)
        {
            return Verdict.Missing(fire, nameof(FireSituation.MetalCover));
        }

        return cover.Metal is { } metal
            ? Part.Hold(cover, nameof(MetalCover.Thickness), cover.Thickness, code.Find($"{group}{metal.ToString().ToLowerInvariant()}"), "metal-cover")
            : Verdict.Missing(cover, nameof(MetalCover.Metal));
    }
}
