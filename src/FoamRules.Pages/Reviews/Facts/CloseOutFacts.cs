using FoamRules.Contracts.V1;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>What is asked of the foam as built, beginning with what was carried out.</summary>
internal static class CloseOutFacts
{
    private static readonly string[] Spray =
    [
        "spray.survey.depths", "spray.survey.tolerance", "spray.thick_pass_cored",
        "spray.samples.densities.samples", "spray.samples.density_tolerance", "spray.samples.adhesion_tests", "spray.samples.adhesion_failures",
        "spray.condition.free_of_scorch", "spray.condition.free_of_splits", "spray.condition.free_of_blisters", "spray.condition.free_of_soft_or_sticky_patches",
        "spray.condition.free_of_shrinkage_gaps", "spray.condition.free_of_lasting_odour", "spray.condition.free_of_off_ratio_foam",
    ];

    private static readonly string[] Fill =
    [
        "cavity_fill.fullness.foam_seen_at_vent", "cavity_fill.fullness.share_sounded_or_scanned", "cavity_fill.fullness.share_full",
        "cavity_fill.holes_made_good", "cavity_fill.marked",
    ];

    private static readonly string[] Covering =
    [
        "fire.covering.material", "fire.covering.thickness", "fire.covering.fastened_to_structure", "fire.barrier_or_approval_recorded", "fire.clearances_checked_as_built",
        "fire.bare_for", "shrinkage_checked_by", "inspected_before_cover", "heat_watch.person", "heat_watch.stays_for", "heat_watch.scans_foam_and_waste", "heat_watch.leaves_on_falling_readings",
        "waste_cools_outside",
    ];

    private static readonly string[] Air =
    [
        "first_spray_at", "last_spray_at", "reentry.cleaned", "reentry.covers_off", "reentry.odour_remains", "reentry.sign_at_every_way_in",
    ];

    private static readonly string[] Waste = ["waste.drains_covered", "waste.liquids_bunded", "waste.ways_out", "waste.lids_loose_for", "waste.release_contact_known"];

    private static readonly string[] Fire = ["fire_protection.coated_heads_replaced", "fire_protection.detectors_uncovered", "fire_protection.back_on_before_return"];

    private static readonly string[] Owner =
        ["owner_handover.map_given", "owner_handover.no_hot_work", "owner_handover.ask_before_drilling", "owner_handover.keep_covering_on", "owner_handover.odour_contact", "owner_handover.sheets_given"];

    private static readonly string[] Certificate =
    [
        "job_certificate.product", "job_certificate.thickness", "job_certificate.r_value", "job_certificate.r_for_this_thickness", "job_certificate.area", "job_certificate.lots",
        "job_certificate.dated", "job_certificate.signed", "job_certificate.left_on_site",
    ];

    /// <summary>The form of a plan.</summary>
    /// <param name="plan">The plan as it was carried out.</param>
    /// <param name="units">The units of its report.</param>
    /// <param name="opened">When the form is opened.</param>
    public static FactSheet Of(Plan plan, DisplayUnits units, DateTimeOffset opened)
    {
        var sheet = new FactSheet(plan, units);
        var now = Fact.Local(opened, plan.TimeZone);
        sheet.Step("times", plan.Areas.Select((area, i) => new FactGroup(area.Id, [.. sheet.Below($"areas[{i}]", area, Air), .. AtEnd(sheet, area, i)])));
        sheet.Step("foam", plan.Work.Select((work, i) => new FactGroup(ReadingRows.NameOf(work), [.. Foam(sheet, work, i)])));
        sheet.Step("heat", plan.Areas.Select((area, i) => new FactGroup(area.Id, [.. Cooled(sheet, plan, area, i, now)])));
        sheet.Step("covering", plan.Work.Select((work, i) => new FactGroup(ReadingRows.NameOf(work), [.. sheet.Below($"work[{i}]", work, Covering)])));
        sheet.Step("waste", new FactGroup("", [.. sheet.Below("", plan, Waste)]));
        sheet.Step("handover", new FactGroup("", [.. sheet.Below("", plan, [.. Fire, .. Owner])]), new FactGroup("", [.. sheet.Below("", plan, Certificate)]));
        return sheet;
    }

    // What is left in the air, and the limit for going back without protection.
    private static IEnumerable<Fact> AtEnd(FactSheet sheet, WorkArea area, int index) => area.AirborneLevels.SelectMany((level, i) =>
        sheet.Row(new FactRow($"areas[{index}].airborne_levels", $"areas[{index}].airborne_levels[{i}]", level), "at_end_by_mass", "return_limit_by_mass", "no_source_after_spraying")
            .Select(fact => fact with { Of = Fact.NamesOf(AirborneLevel.Descriptor.FindFieldByName("substance").EnumType).FirstOrDefault(name => name.Number == (int)level.Substance).Name ?? "" }));

    private static IEnumerable<Fact> Foam(FactSheet sheet, WorkItem work, int index) => work.KindCase switch
    {
        WorkItem.KindOneofCase.Spray => [.. Passes(sheet, work.Spray, $"work[{index}].spray.passes"), .. sheet.Below($"work[{index}]", work, Spray)],
        WorkItem.KindOneofCase.CavityFill => sheet.Below($"work[{index}]", work, Fill),
        _ => [],
    };

    private static IEnumerable<Fact> Passes(FactSheet sheet, SprayApplication spray, string list) => spray.Passes.SelectMany((pass, i) =>
        sheet.Row(new FactRow(list, $"{list}[{i}]", pass), "built_thickness", "built_wait").Select(fact => fact with { Of = $"{i + 1}" }));

    // The readings of the job stay; those of the end come behind them.
    private static IEnumerable<Fact> Cooled(FactSheet sheet, Plan plan, WorkArea area, int index, string now)
    {
        for (var i = 0; i < area.Readings.Count; i++)
        {
            _ = sheet.Row(new FactRow($"areas[{index}].readings", $"areas[{index}].readings[{i}]", area.Readings[i]));
        }

        var work = plan.Work.Where(work => work.Area == area.Id);
        return ReadingRows.Ask(sheet, index, work.SelectMany(one => new (ReadingKind, WorkItem?)[] { (ReadingKind.FoamCoreTemperature, one), (ReadingKind.FoamSurfaceTemperature, one) }), area.Readings.Count, now);
    }
}
