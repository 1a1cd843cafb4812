using System.Globalization;
using FoamRules.Exchange;
using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.Pages.Forms;
using FoamRules.Pages.Site;
using FoamRules.Testing;

namespace FoamRules.Pages.Tests;

/// <summary>The short forms: every field has its words and its units, and what is filled in becomes a plan.</summary>
public sealed class FormTests
{
    private static readonly ReadOptions Now = new(DateTimeOffset.UnixEpoch);

    private static PageWords English => PageWords.In(PageWords.English);

    private static ShortForm Column => ShortForm.All.Single(form => form.Name == "column");

    [Fact]
    public void Every_field_has_its_words_and_every_unit_is_one_of_the_contract()
    {
        Assert.All(ShortForm.All.SelectMany(form => form.Fields), field =>
        {
            Assert.Contains(FieldView.LabelKey(field.Path), PageWords.In(PageWords.English).Texts.Keys);
            if (field.Kind == PlanFieldKind.Quantity)
            {
                Assert.Subset(field.Names.ToHashSet(), ShortForm.Units(field.Quantity).Select(unit => unit.Name).ToHashSet());
                Assert.Contains(ShortForm.UsualUnit(field), ShortForm.Units(field.Quantity).Select(unit => unit.Name));
            }
        });
        Assert.All(ShortForm.All.SelectMany(form => form.Sections), section => Assert.Contains($"section-{section.Name}", PageWords.In(PageWords.English).Texts.Keys));
    }

    [Fact]
    public void Every_choice_and_every_list_that_may_have_no_entries_has_its_words_in_each_language()
    {
        foreach (var language in PageWords.Languages)
        {
            var (texts, words) = (Repository.Engine.Library.Everything().In(language).Texts, PageWords.In(language));
            var names = ShortForm.All.SelectMany(form => form.Fields).Where(field => field.Kind == PlanFieldKind.Choice && field.Path != "stage").SelectMany(field => field.Names).Distinct();
            var without = names.Where(name => FieldView.ChoiceOf(name, texts, words) is null).ToList();
            Assert.True(without.Count == 0, $"{language}: {string.Join(' ', without)}");
            Assert.All(ShortForm.All.SelectMany(form => form.MayBeNone), list => Assert.Contains($"none-{list.Split('.')[^2]}", words.Texts.Keys));
        }
    }

    [Fact]
    public void No_vent_holes_is_another_thing_than_not_known()
    {
        var none = new FilledForm(Column, new Dictionary<string, string> { ["name"] = "Two posts", ["stage"] = "quote", ["work[0].cavity_fill.vent_holes.holes:none"] = "true" });
        Assert.Empty(none.Wrong(English));
        Assert.Empty(PlanReader.ReadText(none.Plan(), null, Now).Plan!.Work[0].CavityFill!.VentHoles!.Holes);
        var both = none with { Values = new Dictionary<string, string>(none.Values) { ["work[0].cavity_fill.vent_holes.holes[1].height"] = "9" } };
        Assert.Equal("work[0].cavity_fill.vent_holes.holes[1].height", both.FieldOf(Assert.Single(both.Wrong(English)))!.Path);
    }

    [Fact]
    public void A_gas_test_is_a_reading_of_its_kind_once_something_of_it_is_filled_in()
    {
        var filled = new FilledForm(Column, new Dictionary<string, string>
        {
            ["name"] = "Vault",
            ["stage"] = "pre-start",
            ["areas[0].confined_space.classification"] = "permit-required",
            ["areas[0].readings[0].oxygen"] = "20.9",
        });
        var area = Assert.Single(PlanReader.ReadText(filled.Plan(), null, Now).Plan!.Areas);
        Assert.Equal((ReadingKind.GasTest, 20.9), (Assert.Single(area.Readings).Kind, Math.Round(area.Readings[0].Oxygen!.Value.Percent, 6)));
        var without = filled with { Values = filled.Values.Where(pair => !pair.Key.Contains("oxygen", StringComparison.Ordinal)).ToDictionary() };
        Assert.Empty(Assert.Single(PlanReader.ReadText(without.Plan(), null, Now).Plan!.Areas).Readings);
    }

    [Theory]
    [InlineData("America/Chicago", "2026-04-10T15:30", "2026-04-10T20:30:00Z")]
    [InlineData("Europe/Madrid", "2026-04-10T15:30", "2026-04-10T13:30:00Z")]
    // The clock shows it twice: the later one counts, as people come back after it.
    [InlineData("America/Chicago", "2026-11-01T01:30", "2026-11-01T07:30:00Z")]
    // The clock skips it.
    [InlineData("America/Chicago", "2026-03-08T02:30", null)]
    [InlineData("", "2026-04-10T15:30", null)]
    public void A_time_is_typed_by_the_clock_of_the_site(string zone, string typed, string? meant)
    {
        var filled = new FilledForm(Column, new Dictionary<string, string> { ["name"] = "Two posts", ["stage"] = "quote", ["time_zone"] = zone, ["areas[0].last_spray_at"] = typed });
        var read = PlanReader.ReadText(filled.Plan(), null, Now);
        Assert.Empty(read.Violations);
        var at = Assert.Single(read.Plan!.Areas).LastSprayAt;
        Assert.Equal(meant is null ? null : DateTimeOffset.Parse(meant, CultureInfo.InvariantCulture), at);
        Assert.Equal(meant is null ? ["areas[0].last_spray_at"] : [], filled.Wrong(English).Select(violation => filled.FieldOf(violation)!.Path));
    }

    [Fact]
    public void Every_zone_that_is_offered_is_one_of_a_plan() =>
        Assert.All(TimeZones.ByPart.SelectMany(part => part), zone => Assert.DoesNotContain(PlanReader.ReadText($"name: x\nstage: quote\ntime_zone: {zone}\n", null, Now).Violations, violation => violation.Path == "time_zone"));

    [Fact]
    public void What_is_filled_in_is_in_the_plan_and_what_is_left_empty_is_not()
    {
        var filled = new FilledForm(Column, new Dictionary<string, string>
        {
            ["name"] = "Two posts",
            ["stage"] = "quote",
            ["work[0].cavity_fill.height"] = "10",
            ["work[0].cavity_fill.height:unit"] = "feet",
            ["work[0].cavity_fill.drilled_before_foam"] = "false",
            ["products[0].flow_factor"] = "1.15",
        });
        var read = PlanReader.ReadText(filled.Plan(), null, Now);
        Assert.Empty(read.Violations);
        var fill = Assert.Single(read.Plan!.Work).CavityFill!;
        Assert.Equal(10, fill.Height!.Value.Feet, 9);
        Assert.False(fill.DrilledBeforeFoam);
        Assert.Equal(1.15, Assert.Single(read.Plan.Products).FlowFactor);
        Assert.Null(fill.VentHoles);
        Assert.Null(fill.Count);
        Assert.Empty(read.Plan.RuleSets);
    }

    [Fact]
    public void A_row_that_is_left_empty_closes_up()
    {
        var filled = new FilledForm(Column, new Dictionary<string, string>
        {
            ["name"] = "Two posts",
            ["stage"] = "quote",
            ["work[0].cavity_fill.vent_holes.holes[1].height"] = "9",
            ["work[0].cavity_fill.vent_holes.holes[1].height:unit"] = "feet",
        });
        var read = PlanReader.ReadText(filled.Plan(), null, Now);
        Assert.Empty(read.Violations);
        Assert.Equal(9, Assert.Single(read.Plan!.Work[0].CavityFill!.VentHoles!.Holes).Height!.Value.Feet, 9);
    }

    [Fact]
    public void What_is_wrong_is_told_of_the_field_in_which_it_stands()
    {
        var filled = new FilledForm(Column, new Dictionary<string, string>
        {
            ["stage"] = "quote",
            ["jurisdiction.country"] = "Somewhere",
            ["work[0].cavity_fill.height"] = "ten",
            ["work[0].cavity_fill.height:unit"] = "feet",
            ["work[0].cavity_fill.count"] = "0",
            ["work[0].cavity_fill.vent_holes.holes[1].height"] = "1,5",
        });
        var fields = PlanReader.ReadText(filled.Plan(), null, Now).Violations.Select(violation => filled.FieldOf(violation)?.Path).ToHashSet();
        Assert.Equal(
            new HashSet<string?> { "name", "jurisdiction.country", "work[0].cavity_fill.height", "work[0].cavity_fill.count", "work[0].cavity_fill.vent_holes.holes[1].height" }, fields);
    }

    [Fact]
    public void A_path_that_is_no_field_is_refused()
    {
        Assert.Throws<ArgumentException>(() => PlanField.At("work[0].colour"));
        Assert.Throws<ArgumentException>(() => PlanField.At("work[0].cavity_fill"));
    }
}
