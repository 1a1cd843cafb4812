using FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>What is asked before people come back into an area. Everything begins empty: what the plan says of it was a plan.</summary>
internal static class ReentryFacts
{
    private static readonly string[] Seen = ["last_spray_at", "reentry.cleaned", "reentry.covers_off", "reentry.odour_remains"];

    /// <summary>The form of an area.</summary>
    /// <param name="plan">The plan as it stands on record.</param>
    /// <param name="units">The units of its report.</param>
    /// <param name="index">The area's index.</param>
    public static FactSheet Of(Plan plan, DisplayUnits units, int index)
    {
        var sheet = new FactSheet(plan, units);
        var (area, path) = (plan.Areas[index], $"areas[{index}]");
        sheet.Step("seen", new FactGroup("", [.. sheet.Below(path, area, Seen).Select(Empty)]), new FactGroup("", [.. Measured(sheet, area, path)]));
        return sheet;
    }

    // What was measured stands for what the plan expects of the same substance at the same task.
    private static IEnumerable<Fact> Measured(FactSheet sheet, WorkArea area, string path) => area.AirborneLevels.SelectMany((level, i) =>
    {
        var row = $"{path}.airborne_levels[{i}]";
        var measured = level.Clone();
        (measured.AtEndByMass, measured.AtEndByVolume) = (null, null);
        return sheet.Row(new FactRow($"{path}.airborne_levels", row, measured, $"{row}.at_end_by_mass"), "at_end_by_mass").Select(fact => fact with
        {
            Of = Fact.NamesOf(AirborneLevel.Descriptor.FindFieldByName("substance").EnumType).FirstOrDefault(name => name.Number == (int)level.Substance).Name ?? "",
        });
    });

    private static Fact Empty(Fact fact) => fact with { Value = "", Planned = fact.Kind == FactKind.Instant ? fact.Value.Replace('T', ' ') : "" };
}
