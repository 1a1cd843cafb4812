using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;
using FoamRules.Text;
using UnitsNet;

namespace FoamRules.Rules.Tests;

/// <summary>What must be in the price. Figures by hand are those of shared/plans/cold-store-dock.yaml.</summary>
public sealed class PriceListTests
{
    private const string Fill = "work[posts].cavity_fill";

    // 480 ft² × 3.5 in = 1,680 bd ft and 140 ft³; at 2.2 lb/ft³ 308 lb; with 10 % lost 342.2 lb; 34.2 lb of it lost; one set of 1,000 lb.
    [Fact]
    public void Material_comes_with_what_is_lost()
    {
        var report = Check();
        Assert.Equal(1680, ((Scalar)Line(report, "board-feet", "spray-2lb").Quantity!.Quantity!).Amount, 1e-6);
        Assert.Equal(308, Pounds(Line(report, "foam-in-place", "spray-2lb")), 0.001);
        Assert.Equal(342.222, Pounds(Line(report, "material-drawn", "spray-2lb")), 0.001);
        Assert.Equal(34.222, Pounds(Line(report, "material-lost", "spray-2lb")), 0.001);
        Assert.Equal(1, Line(report, "drum-sets", "spray-2lb").Quantity!.Count);
        Assert.NotEmpty(Line(report, "drum-sets", "spray-2lb").Steps);
        Assert.DoesNotContain(report.PriceLines, line => line.Id == "board-feet" && line.Subject.Id == "pour-2lb");
    }

    // Twelve posts with two fill holes and one vent each.
    [Fact]
    public void Holes_are_counted_for_all_members()
    {
        var report = Check();
        Assert.Equal(24, Line(report, "fill-holes").Quantity!.Count);
        Assert.Equal(12, Line(report, "vent-holes").Quantity!.Count);
        Assert.False(Line(report, "vent-holes").AtLeast);
        Assert.Equal(36, Line(report, "holes-made-good").Quantity!.Count);
    }

    [Theory]
    [InlineData(null, 24, true)]
    [InlineData("{\"holes\":[]}", 24, true)]
    [InlineData("{\"holes\":[{\"diameter\":{\"inches\":1},\"height\":{\"feet\":5}},{\"diameter\":{\"inches\":1},\"height\":{\"feet\":10}},{\"diameter\":{\"inches\":1},\"height\":{\"feet\":9}}]}", 36, false)]
    [InlineData("{\"holes\":[{\"open_area\":{\"square_inches\":1},\"height\":{\"feet\":5}},{\"diameter\":{\"inches\":1},\"height\":{\"feet\":10}}]}", 12, false)]
    public void Vents_that_nobody_planned_or_too_few_are_at_least_what_the_requirement_asks_of_each_compartment(string? vents, int holes, bool atLeast)
    {
        var report = Check(($"{Fill}.vent_holes", vents), ($"{Fill}.compartments", "[{\"from\":{\"feet\":0},\"to\":{\"feet\":5}},{\"from\":{\"feet\":5},\"to\":{\"feet\":10}}]"));
        var line = Line(report, "vent-holes");
        Assert.Equal((holes, atLeast), ((int)line.Quantity!.Count!, line.AtLeast));
    }

    [Fact]
    public void What_is_not_known_is_said_and_not_guessed()
    {
        var line = Line(Check(($"{Fill}.count", null)), "vent-holes");
        Assert.Null(line.Quantity);
        Assert.Equal(["work[posts].cavity_fill.count"], line.Missing);
        Assert.Contains("work[posts].cavity_fill.count", line.How, StringComparison.Ordinal);
        var crew = Line(Check(("people", "[]")), "supplied-air");
        Assert.Null(crew.Quantity);
        Assert.Equal(["people"], crew.Missing);
    }

    // 10 air changes an hour in 6,000 ft³ are 1,000 ft³/min.
    [Theory]
    [InlineData("{\"cubic_feet_per_minute\":800}", 1000)]
    [InlineData("{\"cubic_feet_per_minute\":1000}", 1000)]
    [InlineData("{\"cubic_feet_per_minute\":2000}", 2000)]
    [InlineData(null, 1000)]
    public void Fans_are_the_larger_of_what_is_asked_and_what_is_planned(string? planned, double flow) =>
        Assert.Equal(flow, ((VolumeFlow)Line(Check(("areas[office].ventilation.exhaust_flow", planned)), "fans", "office").Quantity!.Quantity!).CubicFeetPerMinute, 1e-6);

    // From 08:00 to 12:00, and 48 h on.
    [Fact]
    public void Fans_run_from_the_first_foam_until_the_air_is_clear()
    {
        Assert.Equal(52, Hours(Line(Check(), "fan-time", "office")), 1e-9);
        var open = Line(Check(("areas[office].first_spray_at", null)), "fan-time", "office");
        Assert.Equal(48, Hours(open), 1e-9);
        Assert.True(open.AtLeast);
        Assert.Equal(["areas[office].first_spray_at"], open.Missing);
    }

    [Fact]
    public void A_person_whose_respirator_is_not_enough_may_need_a_set_too()
    {
        Assert.Equal((2, false), Sets(Check()));
        Assert.Equal((1, true), Sets(Check(("people[sprayer].respirator.type", "\"air-purifying\""), ("people[sprayer].respirator.facepiece", "\"half-mask\""))));

        static (int, bool) Sets(Report report) => ((int)Line(report, "supplied-air").Quantity!.Count!, Line(report, "supplied-air").AtLeast);
    }

    // Two pieces of sprayed work in one area are masked twice; poured work is not masked.
    [Fact]
    public void Masking_is_counted_for_each_piece_of_sprayed_work()
    {
        var report = Check(("work[posts].cavity_fill", null), ("work[posts].spray", "{\"area\":{\"square_feet\":10}}"), ("work[posts].area", "\"office\""));
        Assert.Equal(["office-wall", "posts"], report.PriceLines.Where(line => line.Id == "screens").Select(line => line.Subject.Id).Order());
        Assert.Equal("office-wall", Line(Check(), "screens").Subject.Id);
    }

    [Fact]
    public void Work_from_the_ground_needs_no_way_up_and_an_unguarded_one_needs_more()
    {
        var report = Check(("areas[dock].access.protection", "[\"none\"]"));
        Assert.Contains("must be in the price", Line(report, "access", "dock").How, StringComparison.Ordinal);
        Assert.DoesNotContain(report.PriceLines, line => line.Id == "access" && line.Subject.Id == "office");
        Assert.Null(Line(Check(("areas[dock].access", null)), "access", "dock").Quantity);
    }

    [Fact]
    public void A_covering_is_the_sprayed_area_and_says_what_qualifies()
    {
        Assert.Equal(480, ((Area)Line(Check(), "barrier").Quantity!.Quantity!).SquareFeet, 1e-6);
        Assert.Contains("gypsum board 0.5 in", Line(Check(("work[office-wall].fire.covering", null)), "barrier").How, StringComparison.Ordinal);
        Assert.DoesNotContain(Check(("work[office-wall].fire.behind_thermal_barrier", "true")).PriceLines, line => line.Id == "barrier");
    }

    // 3.5 in with 2 in a day are two days: one visit more.
    [Fact]
    public void More_build_than_a_day_allows_is_another_visit()
    {
        Assert.DoesNotContain(Check().PriceLines, line => line.Id == "later-days");
        var report = Check(("work[office-wall].spray.passes", "[]"), ("products[spray-2lb].max_daily_thickness", "{\"inches\":2}"));
        Assert.Equal((1L, true), (Line(report, "later-days").Quantity!.Count!.Value, Line(report, "later-days").AtLeast));
        Assert.Equal(1, Line(Check(("work[office-wall].spray.passes[1].day", "2")), "later-days").Quantity!.Count);
    }

    // Two passes of 60 min and a wait of 75 min fit into one shift.
    [Fact]
    public void Days_on_site_come_from_passes_and_waits()
    {
        var report = Check(
            ("areas[office].shift_starts_at", "\"2026-04-15T07:00:00-05:00\""), ("areas[office].shift_ends_at", "\"2026-04-15T16:00:00-05:00\""), ("work[office-wall].spray.time_per_pass", "{\"minutes\":60}"));
        Assert.Equal(1, Line(report, "days").Quantity!.Count);
        Assert.Equal(["work[office-wall].spray.time_per_pass"], Line(Check(
            ("areas[office].shift_starts_at", "\"2026-04-15T07:00:00-05:00\""), ("areas[office].shift_ends_at", "\"2026-04-15T16:00:00-05:00\"")), "days").Missing);
    }

    [Fact]
    public void There_is_no_price_list_on_site()
    {
        Assert.Empty(Check(("stage", "\"pre-start\"")).PriceLines);
        Assert.Empty(Check(("stage", "\"close-out\"")).PriceLines);
        Assert.NotEmpty(Check(("stage", "\"quote\"")).PriceLines);
    }

    [Fact]
    public void Whatever_the_plan_each_line_names_its_requirement_and_says_how_it_was_worked_out()
    {
        var lines = Enumerable.Range(4000, 60).SelectMany(seed =>
        {
            var read = PlanReader.ReadMessage(RandomPlans.Make((ulong)seed, 1 + (seed % 4)), new ReadOptions(DateTimeOffset.UnixEpoch));
            return Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!.PriceLines;
        }).ToList();
        Assert.NotEmpty(lines);
        Assert.All(lines, line =>
        {
            Assert.Contains(line.Requirement, Repository.Book("US").Requirements.Keys);
            Assert.True(line.How.Length > 0, line.Id);
            Assert.DoesNotContain("could not be worked out:", line.How, StringComparison.Ordinal);
            Assert.DoesNotMatch(@"\{[a-z_]+\}", line.How);
            Assert.True(line.Quantity is not null || !line.AtLeast, line.Id);
            Assert.True(line.Quantity is not { Count: not null } and not { Quantity: Scalar } || line.Unit.Length > 0, line.Id);
        });
        // Each line of the list turns up in some plan.
        Assert.Empty(Repository.Book("US").Prices.Select(entry => entry.Id).Except(lines.Select(line => line.Id)));
    }

    [Theory]
    [InlineData("mine: { what: w, asked-by: no.such, quantity: once, how: h }\n", "no.such")]
    [InlineData("mine: { what: w, asked-by: vent.air-can-leave, quantity: wishes, how: h }\n", "quantity wishes")]
    [InlineData("mine: { what: w, asked-by: vent.air-can-leave, quantity: vent-holes, how: h }\n", "no how for `planned`, `least`")]
    [InlineData("mine: { what: w, asked-by: vent.air-can-leave, quantity: limit, limit: doors, how: h }\n", "limit doors")]
    public void A_line_that_asks_for_what_is_not_there_is_refused_at_start(string line, string named)
    {
        var library = Repository.Engine.Library.With(new RuleSetFiles("mine", [new RuleSetFile("rule-set.yaml", "title: Mine\nversion: 1.0.0\nlevel: company\n"), new RuleSetFile("price.yaml", line)]), out var violations);
        Assert.True(library is not null, string.Join("; ", violations));
        var refused = Assert.Throws<RuleSetMismatchException>(() => new RuleNetwork(library.Stack("mine")));
        Assert.Contains(named, refused.Message, StringComparison.Ordinal);
        Assert.Contains("mine/price.yaml(1,", refused.Message, StringComparison.Ordinal);
    }

    private static double Pounds(PriceLine line) => ((Mass)line.Quantity!.Quantity!).Pounds;

    private static double Hours(PriceLine line) => ((Duration)line.Quantity!.Quantity!).Hours;

    private static PriceLine Line(Report report, string id, string? subject = null) => report.PriceLines.Single(line => line.Id == id && (subject is null || line.Subject.Id == subject));

    private static Report Check(params (string Path, string? Json)[] changes)
    {
        var plan = TreeEdit.ToJson(DataText.Read(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), "plan").Root!)!;
        foreach (var (path, json) in changes)
        {
            TreeEdit.Set(plan, path, json is null ? null : JsonNode.Parse(json));
        }

        var read = PlanReader.ReadText(plan.ToJsonString(), null, new ReadOptions(default));
        Assert.True(read.Plan is not null, string.Join("; ", read.Violations));
        return Repository.Engine.Check(read.Plan, new CheckOptions(read.Digest), TestContext.Current.CancellationToken).Report!;
    }
}
