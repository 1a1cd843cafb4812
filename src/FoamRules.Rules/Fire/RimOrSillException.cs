using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;

namespace FoamRules.Rules.Fire;

/// <summary>The codes' exception for rim joists, sill plates and headers: no covering where thickness, density and indices fit.</summary>
internal static class RimOrSillException
{
    /// <summary>Met where every condition of the code holds.</summary>
    public static Verdict Judge(WorkFacts work, CodeLimits code)
    {
        var parts = new List<Verdict>
        {
            FoamThickness.Of(work).Against(code.Find("thickness"), "thickness"),
            FoamDensity.Against(work, code.Find("least-density"), "too-light"),
            FoamDensity.Against(work, code.Find("greatest-density"), "too-dense"),
            SurfaceBurningIndices.Against(work.Sheet, code),
        };
        if (code.Find("construction-types") is { } types)
        {
            parts.Add(ConstructionTypes.Among(work.Job.Site, types));
        }

        if (code.Find("placed-by") is { } ways && !ways.Words.Contains(work is SprayFacts ? "spray" : "cavity fill"))
        {
            parts.Add(Verdict.NotMet("not-sprayed"));
        }

        return Verdict.Worst(parts);
    }
}
