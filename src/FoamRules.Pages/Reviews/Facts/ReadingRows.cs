using FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>The readings that a form asks of an area. A reading that nobody takes is not there: one of another day does not stand in for it.</summary>
internal static class ReadingRows
{
    private const string Continuous = "continuous";

    /// <summary>The name of the input for the time of an area's readings.</summary>
    public static string TimeOf(int area) => $"areas[{area}].readings:at";

    /// <summary>Asks for readings of an area.</summary>
    /// <param name="sheet">The form.</param>
    /// <param name="area">The area's index.</param>
    /// <param name="kinds">The kinds, each with the work that it belongs to; null: the area's own.</param>
    /// <param name="kept">How many rows stand before them.</param>
    /// <param name="opened">When the form was opened, as its time input begins.</param>
    public static IEnumerable<Fact> Ask(FactSheet sheet, int area, IEnumerable<(ReadingKind Kind, WorkItem? Work)> kinds, int kept, string opened)
    {
        var planned = sheet.Plan.Areas[area].Readings;
        var list = $"areas[{area}].readings";
        var facts = new List<Fact>();
        foreach (var (kind, work) in kinds)
        {
            var path = $"{list}[{kept + facts.Count}]";
            var fields = FieldsOf(kind);
            var begin = new Reading { Kind = kind, Work = work?.Id ?? "" };
            var before = planned.LastOrDefault(reading => reading.Kind == kind && reading.Work == begin.Work);
            var label = $"reading-kind-{Fact.NamesOf(ReviewEnums.ReadingKind).First(name => name.Number == (int)kind).Name}";
            facts.AddRange(sheet.Row(new FactRow(list, path, begin, [.. fields.Where(field => field != Continuous).Select(field => $"{path}.{field}")]), fields).Zip(fields, (fact, field) => fact with
            {
                Label = fields.Length == 1 ? label : $"{label}-{field.Replace('_', '-')}",
                Of = work is null ? "" : NameOf(work),
                Planned = before is null || field == Continuous ? "" : sheet.Below(path, before, field).Select(was => was.Value.Length == 0 ? "" : $"{was.Value} {UnitNames.Sign(was.Unit)}").First(),
            }));
        }

        return facts.Count == 0 ? [] : [new Fact(TimeOf(area), FactKind.Instant, "readings-at", opened), .. facts];
    }

    /// <summary>Writes the time into the readings that were typed.</summary>
    /// <param name="plan">The plan with them.</param>
    /// <param name="kept">How many readings of an area stood there before; their times stay as they are, given or not.</param>
    /// <param name="posted">What was sent.</param>
    public static void Date(Plan plan, Func<int, int> kept, Func<string, string> posted)
    {
        for (var i = 0; i < plan.Areas.Count; i++)
        {
            var at = FactText.Instant(posted(TimeOf(i)).Trim(), plan.TimeZone);
            foreach (var reading in plan.Areas[i].Readings.Skip(kept(i)))
            {
                reading.At = at is { } when ? Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(when) : null;
            }
        }
    }

    /// <summary>What a piece of work is called.</summary>
    public static string NameOf(WorkItem work) => work.Name.Length > 0 ? work.Name : work.Id;

    // That gas is measured all the time is no reading yet.
    private static string[] FieldsOf(ReadingKind kind) => kind switch
    {
        ReadingKind.RelativeHumidity or ReadingKind.WoodMoisture => ["humidity"],
        ReadingKind.WindGust => ["speed"],
        ReadingKind.GasTest => ["oxygen", "lower_flammable_limit", Continuous],
        _ => ["temperature"],
    };
}
