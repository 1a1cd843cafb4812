using FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>What a crew is asked before the start, one thing at a time, beginning with what was signed.</summary>
internal static class PreStartFacts
{
    /// <summary>Empty rows for what came along since.</summary>
    private const int MoreLots = 2;
    private const int MoreShots = 2;
    private const int MorePeople = 2;

    private static readonly string[] Machine =
    [
        "gear.ratio_check.deviation", "gear.ratio_check.at", "gear.ratio_check.since_start_up", "gear.ratio_check.imbalance_shut_off_works", "gear.ratio_check.empty_drum_shut_off_works",
        "gear.output", "gear.output_check.timed_and_weighed", "gear.output_check.at", "gear.pressure_check.a_side", "gear.pressure_check.b_side",
        "gear.fluid_temperatures.a_side", "gear.fluid_temperatures.b_side", "gear.mix_temperature",
    ];

    private static readonly string[] Drums =
        ["gear.drum_care.all_sound", "gear.drum_care.suspect_left_in_place", "gear.drum_care.area_cleared", "gear.drum_care.supplier_called", "gear.drum_care.bungs_opened_slowly"];

    /// <summary>The form of a plan.</summary>
    /// <param name="plan">The plan that was signed off.</param>
    /// <param name="units">The units of its report.</param>
    /// <param name="opened">When the form is opened.</param>
    public static FactSheet Of(Plan plan, DisplayUnits units, DateTimeOffset opened)
    {
        var sheet = new FactSheet(plan, units);
        var now = Fact.Local(opened, plan.TimeZone);
        sheet.Step("air", plan.Areas.Select((area, i) => new FactGroup(area.Id,
        [
            .. ReadingRows.Ask(sheet, i, Readings(plan, area), 0, now),
            .. sheet.Below($"areas[{i}]", area, "face_water.dry_now", "face_water.dry_until_skinned"),
        ])));
        sheet.Step("people", [.. plan.People.Select((person, i) => new FactGroup(person.Id, [.. Person(sheet, person, i)])), Others(sheet)]);
        sheet.Step("material", plan.Products.Select((product, i) => new FactGroup(product.Id, [.. Lots(sheet, product, i)])));
        sheet.Step("machine", new FactGroup("", [.. sheet.Below("", plan, Machine)]), new FactGroup("", [.. sheet.Below("", plan, Drums)]));
        sheet.Step("work", plan.Work.Select((work, i) => new FactGroup(ReadingRows.NameOf(work), [.. Work(sheet, work, i)])));
        return sheet;
    }

    private static IEnumerable<(ReadingKind, WorkItem?)> Readings(Plan plan, WorkArea area)
    {
        yield return (ReadingKind.AirTemperature, null);
        yield return (ReadingKind.RelativeHumidity, null);
        if (area.Enclosure is not Enclosure.Interior)
        {
            yield return (ReadingKind.WindGust, null);
        }

        if (area.ConfinedSpace is not null ? area.ConfinedSpace.Classification != ConfinedSpaceClass.NotConfined
            : area.BuildingPart is not (BuildingPart.Room or BuildingPart.Basement or BuildingPart.Outside))
        {
            yield return (ReadingKind.GasTest, null);
        }

        foreach (var work in plan.Work.Where(work => work.Area == area.Id))
        {
            yield return (ReadingKind.SurfaceTemperature, work);
            if (work.Substrate == Substrate.Wood)
            {
                yield return (ReadingKind.WoodMoisture, work);
            }
        }
    }

    // Who is here. What their papers say stands in the plan that was signed; whether the mask seals is of today.
    private static IEnumerable<Fact> Person(FactSheet sheet, Person person, int index)
    {
        var path = $"people[{index}]";
        var here = $"{path}:here";
        var asked = sheet.Row(new FactRow("people", path, person, here), "seal_clear");
        return [new Fact(here, FactKind.Tick, "person-here", "1"), .. asked];
    }

    // Someone who is not in the plan comes along with a name only: all that is asked of a person is then not known.
    private static FactGroup Others(FactSheet sheet) => new("", [.. Enumerable.Range(sheet.Plan.People.Count, MorePeople)
        .SelectMany(i => sheet.Row(new FactRow("people", $"people[{i}]", new Person { Areas = { sheet.Plan.Areas.Select(area => area.Id) } }, $"people[{i}].id"), "id"))
        .Select(fact => fact with { Label = "person-other" })]);

    private static IEnumerable<Fact> Lots(FactSheet sheet, Product product, int index) => Enumerable.Range(0, product.Lots.Count + MoreLots).SelectMany(i =>
    {
        var path = $"products[{index}].lots[{i}]";
        return sheet.Row(new FactRow($"products[{index}].lots", path, i < product.Lots.Count ? product.Lots[i] : new Lot(), $"{path}.id"), "id", "expires", "storage_temperature", "liquid_temperature")
            .Select(fact => fact with { Of = $"{i + 1}" });
    });

    private static IEnumerable<Fact> Work(FactSheet sheet, WorkItem work, int index)
    {
        var path = $"work[{index}]";
        return work.KindCase switch
        {
            WorkItem.KindOneofCase.Spray => sheet.Below(path, work, "spray.passes_done"),
            WorkItem.KindOneofCase.CavityFill =>
            [
                .. sheet.Below(path, work, "cavity_fill.steel_temperature"),
                .. Shots(sheet, work.CavityFill.TestShots ?? new TestShots(), $"{path}.cavity_fill.test_shots.shots"),
                .. sheet.Below(path, work, "cavity_fill.test_shots.steel_temperature", "cavity_fill.test_shots.full_rise_seen", "cavity_fill.test_shots.fill_seen_or_measured"),
            ],
            _ => [],
        };
    }

    private static IEnumerable<Fact> Shots(FactSheet sheet, TestShots shots, string list) => Enumerable.Range(0, shots.Shots.Count + MoreShots).SelectMany(i =>
    {
        var path = $"{list}[{i}]";
        // A shot is timed in seconds, whatever longer times are told in.
        return sheet.Row(new FactRow(list, path, i < shots.Shots.Count ? shots.Shots[i] : new TestShot { TriggerTime = new Duration { Seconds = 0 } }, $"{path}.trigger_time"), "trigger_time", "fill_height", "mass", "overflowed")
            .Select(fact => fact with { Of = $"{i + 1}", Value = i < shots.Shots.Count ? fact.Value : "" });
    });
}
