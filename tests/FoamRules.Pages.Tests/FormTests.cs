using FoamRules.Exchange;
using FoamRules.Exchange.Editing;
using FoamRules.Pages.Forms;
using FoamRules.Pages.Site;

namespace FoamRules.Pages.Tests;

/// <summary>The short forms: every field has its words and its units, and what is filled in becomes a plan.</summary>
public sealed class FormTests
{
    private static readonly ReadOptions Now = new(DateTimeOffset.UnixEpoch);

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
