using FoamRules.Model;
using FoamRules.Rules.Facts;

namespace FoamRules.Rules.Air;

/// <summary>What several requirements ask of the air of an area.</summary>
internal static class AreaAir
{
    /// <summary>The reason that stands where a requirement is about indoor air.</summary>
    public const string OpenAir = "open-air";

    /// <summary>True where the plan says that the work is outdoors or on a roof. Not given counts as indoors.</summary>
    public static bool IsInTheOpen(AreaFacts area) => area.Area.Enclosure is Enclosure.Exterior or Enclosure.Roof;

    /// <summary>The data sheets of the products that are used in the area.</summary>
    public static IEnumerable<Product> Sheets(AreaFacts area) => area.Work.Select(work => work.Sheet).Distinct();
}
