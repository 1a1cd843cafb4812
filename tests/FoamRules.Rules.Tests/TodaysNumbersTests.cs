using System.Text.Json.Nodes;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Testing;
using FoamRules.Text;
using UnitsNet;

namespace FoamRules.Rules.Tests;

/// <summary>The numbers that a crew works by. Figures by hand stand at the top of shared/cases/base/fill.yaml.</summary>
public sealed class TodaysNumbersTests
{
    private const string Fill = "work[posts].cavity_fill";

    // Low 0.3 s + 4.8623 lb ÷ 0.95 ÷ 0.2 lb/s ÷ 2 shots = 13.095 s; high 0.3 s + 5.4788 lb ÷ 1.05 ÷ 0.2 lb/s ÷ 2 = 13.345 s. The test
    // shots alone would allow 11.19 to 13.43 s.
    [Fact]
    public void Seconds_a_shot_stay_inside_what_masses_and_test_shots_allow()
    {
        var shot = Number(Check(), "seconds a shot into the cavity");
        Assert.Equal(13.095, Seconds(shot.Low), 0.001);
        Assert.Equal(13.220, Seconds(shot.Aim), 0.001);
        Assert.Equal(13.345, Seconds(shot.High), 0.001);
        Assert.Contains("2 such", shot.Note, StringComparison.Ordinal);
        Assert.NotEmpty(shot.Steps);
    }

    // What a crew is told to shoot must be what the requirements accept.
    [Theory]
    [InlineData(13.10, Outcome.Met, Outcome.Met)]
    [InlineData(13.34, Outcome.Met, Outcome.Met)]
    [InlineData(13.09, Outcome.NotMet, Outcome.Met)]
    [InlineData(13.35, Outcome.Met, Outcome.NotMet)]
    public void The_ends_are_those_of_the_requirements(double seconds, Outcome fills, Outcome overfills)
    {
        var report = Check(($"{Fill}.shots[0].trigger_time", $"{{\"seconds\":{seconds}}}"), ($"{Fill}.shots[1].trigger_time", $"{{\"seconds\":{seconds}}}"));
        Assert.Equal(fills, report.Judgements.Single(one => one.Requirement == "fill.shot-fills-cavity").Outcome);
        Assert.Equal(overfills, report.Judgements.Single(one => one.Requirement == "fill.shot-does-not-overfill").Outcome);
    }

    [Fact]
    public void Without_a_flow_factor_the_test_shots_give_the_seconds()
    {
        var shot = Number(Check(("products[pour-2lb].flow_factor", null)), "seconds a shot into the cavity");
        Assert.Equal(11.19, Seconds(shot.Low), 0.001);
        Assert.Equal(12.30, Seconds(shot.Aim), 0.001);
        Assert.Equal(13.43, Seconds(shot.High), 0.005);
    }

    [Fact]
    public void Without_either_there_are_no_seconds() =>
        Assert.DoesNotContain(Check(("products[pour-2lb].flow_factor", null), ($"{Fill}.test_shots", null)).Numbers, number => number.Name.StartsWith("seconds", StringComparison.Ordinal));

    // Two voids that differ by 2 % cannot both be served with no overpack at all.
    [Fact]
    public void Where_no_time_is_safe_on_both_sides_it_says_so()
    {
        var shot = Number(Check(("products[pour-2lb].max_overpack", "{\"percent\":0}")), "seconds a shot into the cavity");
        Assert.Null(shot.Aim);
        Assert.Contains("no time that surely fills", shot.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void Where_masses_and_test_shots_disagree_it_says_so()
    {
        var shot = Number(Check(($"{Fill}.test_shots.shots[0].fill_height", "{\"inches\":60}"), ($"{Fill}.test_shots.shots[1].fill_height", "{\"inches\":70}"),
            ($"{Fill}.test_shots.shots[2].fill_height", "{\"inches\":80}"), ($"{Fill}.test_shots.shots[3].fill_height", "{\"inches\":90}"), ($"{Fill}.test_shots.shots[4].fill_height", "{\"inches\":100}")), "seconds a shot into the cavity");
        Assert.Null(shot.Aim);
        Assert.Contains("find out why", shot.Note, StringComparison.Ordinal);
    }

    // 26.2 s in all and a longest shot of 20 s: two shots; a sheet that allows 3 ft of rise for 10 ft: four.
    [Theory]
    [InlineData("{\"feet\":12}", "2 such")]
    [InlineData("{\"feet\":3}", "4 such")]
    public void Where_no_shots_are_planned_it_proposes_how_many(string rise, string count) =>
        Assert.Contains(count, Number(Check(($"{Fill}.shots", null), ($"{Fill}.test_shots.shots", "[]"), ("products[pour-2lb].max_rise_per_pour", rise)), "seconds a shot into the cavity").Note, StringComparison.Ordinal);

    // The middle of 5.25 in of foam has half its rise left after 43.0 min, of 0.75 in after 53 s; one and a half rises of 60 s are 90 s.
    [Fact]
    public void The_wait_is_the_longest_of_sheet_rise_and_cooling()
    {
        const string small = "\"HSS1X1X1/8\"";
        Assert.Equal(2700, Seconds(Number(Check(), "wait before coming back").Low), 1e-6);
        var cooling = Number(Check(("products[pour-2lb].wait_between_pours", "{\"minutes\":30}")), "wait before coming back");
        Assert.Equal(2700, Seconds(cooling.Low), 1e-6);
        Assert.Contains("the foam below takes this long to lose half of its temperature rise", cooling.Note, StringComparison.Ordinal);
        Assert.Equal(90, Seconds(Number(Check(("products[pour-2lb].wait_between_pours", "{\"seconds\":60}"), ($"{Fill}.section", small)), "wait before coming back").Low), 1e-6);
        var silent = Number(Check(("products[pour-2lb].wait_between_pours", null), ($"{Fill}.section", small)), "wait before coming back");
        Assert.Equal(90, Seconds(silent.Low), 1e-6);
        Assert.Contains("the data sheet gives no wait", silent.Note, StringComparison.Ordinal);
        Assert.Contains("no full rise seen", Number(Check(($"{Fill}.test_shots.full_rise_seen", null)), "wait before coming back").Note, StringComparison.Ordinal);
    }

    // Twelve posts at the mass to aim at, the middle of 4.8623 and 5.4788 lb, 5.1705 lb: 62.05 lb in place; ÷ 0.85 makes 73.0 lb.
    [Fact]
    public void Material_of_a_fill_is_for_all_cavities_with_waste()
    {
        var report = Check();
        Assert.Equal(62.05, Number(report, "foam in place").Aim!.Quantity!.As(UnitsNet.Units.MassUnit.Pound), 0.01);
        Assert.Equal(73.00, Number(report, "material to have").Aim!.Quantity!.As(UnitsNet.Units.MassUnit.Pound), 0.01);
        Assert.Equal(1, Number(report, "drum sets").Aim!.Count);
    }

    // 1,200 ft² × 4 in are 4,800 bd ft and 400 ft³; at 2.2 lb/ft³ in place 880 lb; with 12 % of waste 1,000 lb: one set. 4 in ÷ 1.5 in: three passes of 1.333 in.
    [Fact]
    public void Passes_waits_and_material_of_a_spray()
    {
        const string spray = "{\"area\":{\"square_feet\":1200},\"thickness\":{\"inches\":4}}";
        var report = Check(
            (Fill, null), ("work[posts].spray", spray), ("gear.waste", "{\"percent\":12}"), ("products[pour-2lb].in_place_density", "{\"pounds_per_cubic_foot\":2.2}"),
            ("products[pour-2lb].max_pass_thickness", "{\"inches\":1.5}"), ("products[pour-2lb].wait_between_passes", "{\"minutes\":30}"));
        Assert.Equal(3, Number(report, "passes").Aim!.Count);
        Assert.Equal(4 / 3.0, Number(report, "thickness a pass").Aim!.Quantity!.As(UnitsNet.Units.LengthUnit.Inch), 1e-9);
        Assert.Equal(1800, Seconds(Number(report, "wait between passes").Low), 1e-6);
        Assert.Equal(4800, Number(report, "board feet").Aim!.Quantity!.As(UnitsNet.Units.ScalarUnit.Amount), 1e-6);
        Assert.Equal(1000, Number(report, "material to have").Aim!.Quantity!.As(UnitsNet.Units.MassUnit.Pound), 0.01);
        Assert.Equal(1, Number(report, "drum sets").Aim!.Count);
    }

    [Fact]
    public void Work_of_which_too_little_is_known_makes_the_sum_a_least()
    {
        var second = Plan()["work"]![0]!.DeepClone();
        second["id"] = "beams";
        second["cavity_fill"]!["count"] = null;
        var report = Check(plan => plan["work"]!.AsArray().Add(second));
        var number = Number(report, "material to have");
        Assert.Null(number.Aim);
        Assert.NotNull(number.Low);
        Assert.Contains("without beams", number.Note, StringComparison.Ordinal);
    }

    [Fact]
    public void After_the_work_there_are_none() => Assert.Empty(Check(("stage", "\"close-out\"")).Numbers);

    // Zero is the least that a plan can give; whatever it is given for, a number is there or is not, and nothing fails.
    [Theory]
    [InlineData("work[posts].cavity_fill.height", "{\"feet\":0}")]
    [InlineData("work[posts].cavity_fill.height", "{\"feet\":6500}")]
    [InlineData("work[posts].cavity_fill.compartments", "[{\"from\":{\"feet\":5},\"to\":{\"feet\":5}}]")]
    [InlineData("work[posts].cavity_fill.shots[0].trigger_time", "{\"seconds\":0}")]
    [InlineData("work[posts].cavity_fill.shots[0].trigger_time", "{\"seconds\":0.3}")]
    [InlineData("work[posts].cavity_fill.section", "\"HSS6X6X3\"")]
    [InlineData("work[posts].cavity_fill.vent_holes.holes[0].diameter", "{\"inches\":0}")]
    [InlineData("work[posts].cavity_fill.test_shots.shots[0].trigger_time", "{\"seconds\":0}")]
    [InlineData("work[posts].cavity_fill.test_shots.output_spread", "{\"percent\":0}")]
    [InlineData("work[posts].cavity_fill.test_shots.output_spread", "{\"percent\":30}")]
    [InlineData("products[pour-2lb].free_rise_density", "{\"pounds_per_cubic_foot\":0}")]
    [InlineData("products[pour-2lb].max_overpack", "{\"percent\":500}")]
    [InlineData("products[pour-2lb].longest_shot", "{\"seconds\":0}")]
    [InlineData("products[pour-2lb].max_rise_per_pour", "{\"feet\":0}")]
    [InlineData("site.altitude", "{\"meters\":9000}")]
    [InlineData("gear.output", "{\"pounds_per_minute\":0}")]
    [InlineData("gear.trigger_lag", "{\"seconds\":100}")]
    [InlineData("gear.waste", "{\"percent\":100}")]
    [InlineData("gear.set_mass", "{\"pounds\":0}")]
    public void Nothing_fails_on_the_least_and_the_most(string path, string value)
    {
        foreach (var shots in new[] { true, false })
        {
            var report = Check(plan =>
            {
                TreeEdit.Set(plan, path, JsonNode.Parse(value));
                if (!shots)
                {
                    TreeEdit.Set(plan, $"{Fill}.shots", null);
                }

                TreeEdit.Set(plan, $"{Fill}.weakest_wall", "gypsum-board");
                TreeEdit.Set(plan, $"{Fill}.wall_holds", JsonNode.Parse("{\"pascals\":0}"));
            });
            Assert.DoesNotContain(report.Numbers, number => number.Name.StartsWith("a number that could not", StringComparison.Ordinal));
            Assert.Empty(report.Findings.Where(finding => finding.Outcome == Outcome.Faulted).Select(finding => $"{finding.Requirement}: {finding.Found}"));
        }
    }

    private static double Seconds(Measure? measure) => ((Duration)measure!.Quantity!).Seconds;

    private static Number Number(Report report, string name) => report.Numbers.Single(number => number.Name.StartsWith(name, StringComparison.Ordinal));

    private static JsonNode Plan() => TreeEdit.ToJson(DataText.Read(File.ReadAllText(Repository.PathOf("shared", "cases", "base", "fill.yaml")), "fill.yaml").Root!)!;

    private static Report Check(params (string Path, string? Json)[] changes) => Check(plan =>
    {
        foreach (var (path, json) in changes)
        {
            TreeEdit.Set(plan, path, json is null ? null : JsonNode.Parse(json));
        }
    });

    private static Report Check(Action<JsonNode> change)
    {
        var plan = Plan();
        change(plan);
        var read = PlanReader.ReadText(plan.ToJsonString(), null, new ReadOptions(default));
        Assert.True(read.Plan is not null, string.Join("; ", read.Violations));
        return Repository.Engine.Check(read.Plan, new CheckOptions(read.Digest), TestContext.Current.CancellationToken).Report!;
    }
}
