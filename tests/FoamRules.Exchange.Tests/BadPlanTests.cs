using System.Text;
using FoamRules.Model;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Exchange.Tests;

/// <summary>What cannot be read is named at once, by field path and line; nothing crashes or hangs.</summary>
public sealed class BadPlanTests
{
    public static TheoryData<string> BadPlans { get; } = [.. BadPlan.Read().Select(bad => bad.Says)];

    [Theory]
    [MemberData(nameof(BadPlans))]
    public void Everything_that_is_wrong_is_named_at_once(string says)
    {
        var bad = BadPlan.Read().Single(bad => bad.Says == says);
        var read = Read(bad.Text);
        Assert.Null(read.Plan);
        Assert.Equal(bad.Paths, read.Violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
        Assert.All(read.Violations, violation => Assert.True(violation.Line > 0 && violation.Found.Length > 0 && violation.Allowed.Length > 0 && violation.Remedy.Length > 0));
    }

    [Theory]
    [InlineData("")]
    [InlineData("   \n# only a comment\n")]
    [InlineData("just words")]
    [InlineData("- a list\n- of things")]
    [InlineData("name: [1, 2")]
    [InlineData("name: \"no end")]
    [InlineData("{\"name\": \"x\", \"stage\":")]
    [InlineData("{\"name\": \"\\ud800\"}")]
    [InlineData("name: x\nname: y\nstage: plan")]
    [InlineData("a: 1\n---\nb: 2")]
    [InlineData("\0\u0001\u0002")]
    [InlineData("? [complex, key]\n: value")]
    public void Text_that_is_no_plan_is_refused_with_its_place(string text)
    {
        var read = Read(text);
        Assert.Null(read.Plan);
        Assert.NotEmpty(read.Violations);
        Assert.All(read.Violations, violation => Assert.DoesNotContain("   at ", violation.ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public void Any_beginning_of_the_example_plan_is_read_or_refused_and_never_more()
    {
        var whole = File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml"));
        for (var length = 0; length < whole.Length; length += 97)
        {
            var read = Read(whole[..length]);
            Assert.True(read.Plan is not null || read.Violations.Count > 0);
        }
    }

    [Fact]
    public void Aliases_are_refused_so_that_a_small_text_cannot_grow()
    {
        var bomb = new StringBuilder("a: &a [x, x, x, x, x, x, x, x, x]\n");
        for (var c = 'b'; c <= 'i'; c++)
        {
            bomb.Append(c).Append(": &").Append(c).Append(" [").AppendJoin(", ", Enumerable.Repeat($"*{(char)(c - 1)}", 9)).Append("]\n");
        }

        var read = Read(bomb.ToString());
        Assert.Null(read.Plan);
        Assert.Contains(read.Violations, violation => violation.Found.Contains("alias", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData('[')]
    [InlineData('{')]
    public void Deep_nesting_is_refused(char open)
    {
        Assert.Null(Read("name: " + new string(open, 50_000)).Plan);
        Assert.Null(Read("{\"name\": " + (open == '[' ? new string('[', 50_000) : string.Concat(Enumerable.Repeat("{\"a\":", 50_000)))).Plan);
    }

    [Fact]
    public void Ten_thousand_work_items_are_read_and_one_more_is_refused()
    {
        Assert.NotNull(Read(Many(10_000)).Plan);
        Assert.Equal("work", Assert.Single(Read(Many(10_001)).Violations).Path);
    }

    [Theory]
    [InlineData("\"na\\e[1A\\e[2Kme\": x")]
    [InlineData("name: \"x\\e[2KPROCEED\"")]
    [InlineData("name: x\nstage: \"\\u202Esoon\"")]
    [InlineData("work: [{ id: \"\\u0007\", area: \"\\u009B2K\" }]")]
    public void What_is_said_of_a_plan_never_commands_a_terminal(string text)
    {
        var read = Read(text);
        Assert.NotEmpty(read.Violations);
        Assert.All(read.Violations, violation => Assert.Null(HiddenCharacters.FirstOf(violation.ToString())));
    }

    [Fact]
    public void A_plan_of_five_megabytes_is_refused_for_its_long_text_and_not_for_its_size()
    {
        var read = Read("name: " + new string('x', 5_000_000) + "\nstage: plan\n");
        Assert.Contains(read.Violations, violation => violation is { Path: "name", Allowed: "at most 2000 characters" });
    }

    [Fact]
    public void Values_that_overflow_are_refused()
    {
        var read = Read("name: x\nstage: plan\nareas: [{id: a}]\nproducts: [{id: p}]\nwork: [{id: w, area: a, product: p, spray: {thickness: {feet: 1e308}, passes: [{day: 99999999999}]}}]");
        Assert.Equal(["work[0].spray.passes[0].day", "work[0].spray.thickness.feet"], read.Violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_misspelt_field_is_answered_with_the_one_that_was_meant()
    {
        var violation = Assert.Single(Read(Good.Replace("thickness:", "thicknes:", StringComparison.Ordinal)).Violations);
        Assert.Equal(("did you mean thickness?", 5, 47), (violation.Remedy, violation.Line, violation.Column));
    }

    [Theory]
    [InlineData("work: [{ id: w, thickness: { inches: 2 } }]", "work[0].thickness", "did you mean spray.thickness?")]
    [InlineData("work: [{ id: w }, { id: v, spray: { concrete_age: { days: 2 } } }]", "work[1].spray.concrete_age", "did you mean work[1].concrete_age?")]
    [InlineData("work: [{ id: w, maxPassThickness: { inches: 2 } }]", "work[0].maxPassThickness", "did you mean products[].max_pass_thickness?")]
    [InlineData("exhaust_flow: { liters_per_second: 2 }", "exhaust_flow", "did you mean areas[].ventilation.exhaust_flow?")]
    [InlineData("work: [{ id: w, exhuast_flow: { liters_per_second: 2 } }]", "work[0].exhuast_flow", "did you mean areas[].ventilation.exhaust_flow?")]
    [InlineData("areas: [{ id: a, worc: 1 }]", "areas[0].worc", "did you mean readings[].work, work?")]
    [InlineData("wrok: 1", "wrok", "did you mean work?")]
    public void A_field_at_the_wrong_place_is_answered_with_where_it_belongs(string text, string path, string remedy)
    {
        Assert.Equal(remedy, Assert.Single(Read($"name: x\nstage: plan\n{text}\n").Violations, one => one.Path == path).Remedy);
        var json = TreeEdit.ToJson(DataText.Read($"name: x\nstage: plan\n{text}\n", null).Root!)!.ToJsonString();
        var violation = Assert.Single(Read(json).Violations, one => one.Path == path);
        Assert.Equal((remedy, remedy.Replace("did you mean", "¿quiso decir", StringComparison.Ordinal), remedy.Replace("did you mean", "vouliez-vous dire", StringComparison.Ordinal).Replace("?", "\u00a0?", StringComparison.Ordinal)),
            (violation.Remedy, ViolationWords.In([violation], "es")[0].Remedy, ViolationWords.In([violation], "fr")[0].Remedy));
    }

    [Fact]
    public void Many_unknown_fields_are_refused_without_a_search_for_each() =>
        Assert.Equal(5000, Read("name: x\nstage: plan\n" + string.Concat(Enumerable.Range(0, 5000).Select(i => $"exhaust_flwo{i}: 1\n"))).Violations.Count(one => one.Path.StartsWith("exhaust", StringComparison.Ordinal)));

    [Fact]
    public void A_time_without_an_offset_is_refused_because_it_would_depend_on_the_reader()
    {
        var violation = Assert.Single(Read(Good + "\njudged_at: 2026-04-14T07:40:00").Violations);
        Assert.Equal("judged_at", violation.Path);
    }

    private const string Good = "name: x\nstage: plan\nareas: [{ id: a }]\nproducts: [{ id: p }]\nwork: [{ id: w, area: a, product: p, spray: { thickness: { inches: 2 } } }]";

    private static PlanRead Read(string text) => PlanReader.ReadText(text, "plan.yaml", new ReadOptions(DateTimeOffset.UnixEpoch));

    private static string Many(int count)
    {
        var text = new StringBuilder("name: x\nstage: plan\nareas: [{ id: a }]\nproducts: [{ id: p }]\nwork:\n");
        for (var i = 0; i < count; i++)
        {
            text.Append("- { id: w").Append(i).Append(", area: a, product: p, spray: { thickness: { inches: 2 } } }\n");
        }

        return text.ToString();
    }
}
