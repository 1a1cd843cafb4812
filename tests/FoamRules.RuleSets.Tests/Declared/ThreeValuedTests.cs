using FoamRules.Model;
using FoamRules.RuleSets.Declared;
using UnitsNet;

namespace FoamRules.RuleSets.Tests.Declared;

/// <summary>What is not given is neither yes nor no, unless it does not matter; and what matters is named.</summary>
public sealed class ThreeValuedTests
{
    // a = site.occupied, b = site.humid_use; + yes, - no, ? not given, ! no result. The missing fields follow a slash.
    [Theory]
    [InlineData("a && b", "++ + | +- - | +? ?/b | -+ - | -- - | -? - | ?+ ?/a | ?- - | ?? ?/a,b")]
    [InlineData("a || b", "++ + | +- + | +? + | -+ + | -- - | -? ?/b | ?+ + | ?- ?/a | ?? ?/a,b")]
    [InlineData("!a", "+? - | -? + | ?+ ?/a")]
    [InlineData("a == b", "++ + | +- - | ?- ?/a | ?? ?/a,b")]
    [InlineData("a ? b : !b", "++ + | +- - | -+ - | -- + | +? ?/b | ?+ ?/a | ?? ?/a")]
    [InlineData("a && 1 / 0 > 0", "++ ! | -+ - | ?+ ?/a")]
    [InlineData("1 / 0 > 0 && a", "++ ! | -+ - | ?+ ?/a")]
    [InlineData("1 / 0 > 0 || a", "++ + | -+ ! | ?+ ?/a")]
    [InlineData("(a && b) || !b", "?- + | ?+ ?/a | +? ?/b | ?? ?/a,b")]
    [InlineData("has(site.occupied) && b", "++ + | -+ + | ?+ - | +? ?/b")]
    [InlineData("has(site.occupied) ? a : b", "++ + | -+ - | ?+ + | ?- - | ?? ?/b")]
    [InlineData("[1, 2].all(x, x > 1 ? a : b)", "++ + | -? - | +? ?/b | ?? ?/a,b")]
    [InlineData("[1, 2].exists(x, x > 1 ? a : b)", "-- - | +? + | -? ?/b | ?? ?/a,b")]
    [InlineData("[1, 2].exists_one(x, x > 1 ? a : b)", "+- + | ++ - | +? ?/b")]
    [InlineData("size([1, 2].filter(x, x > 1 ? a : b)) == 1", "+- + | ++ - | ?- ?/a")]
    [InlineData("true in [1, 2].map(x, x > 1 ? a : b)", "+- + | -- - | +? ?/b")]
    public void What_is_not_given_counts_only_where_it_matters(string expression, string table)
    {
        var condition = Compile(Names(expression));
        foreach (var row in table.Split('|', StringSplitOptions.TrimEntries))
        {
            var answer = condition.Ask(Input(Given(row[0]), Given(row[1])));
            var found = answer.Failure is not null ? "!" : answer.Holds switch { true => "+", false => "-", null => "?/" + string.Join(",", answer.Missing.Select(Short).Distinct().Order()) };
            Assert.Equal($"{expression}: {row}", $"{expression}: {row[..2]} {found}");
        }
    }

    [Theory]
    [InlineData("area.enclosure == 'interior'", "areas[hall].enclosure")]
    [InlineData("area.ventilation.exhaust_flow > liters_per_second(1)", "areas[hall].ventilation.exhaust_flow")]
    [InlineData("area.readings.all(r, r.continuous)", "areas[hall].readings")]
    [InlineData("area.hot_work.items.all(h, h.shielded)", "areas[hall].hot_work")]
    [InlineData("'arrest' in area.access.protection", "areas[hall].access.protection")]
    [InlineData("size(area.airborne_levels) > 0", "areas[hall].airborne_levels")]
    [InlineData("plan.work_date > date('2026-01-01')", "work_date")]
    [InlineData("plan.areas.exists(a, a.contained)", "areas")]
    [InlineData("site.storeys > 2 && site.altitude < feet(100)", "site.storeys, site.altitude")]
    public void What_an_empty_plan_lacks_is_named_by_its_path(string expression, string paths)
    {
        var area = new WorkArea { Id = "hall", Where = new PathStep(null, "areas", "hall") };
        var answer = Compile(expression, DeclaredBearer.Area).Ask(Input(null, null, area));
        Assert.Null(answer.Holds);
        Assert.Equal(paths, string.Join(", ", answer.Missing.Select(field => field.Node.PathOf(field.Property))));
    }

    [Fact]
    public void An_empty_list_says_none_only_as_the_one_field_of_a_part_that_is_given()
    {
        var condition = Compile("area.hot_work.items.all(h, h.shielded)", DeclaredBearer.Area);
        var none = new WorkArea { HotWork = new HotWorkList { Where = new PathStep(null, "hot_work", null) } };
        Assert.True(condition.Ask(Input(null, null, none)).Holds);
        Assert.Null(condition.Ask(Input(null, null, new WorkArea())).Holds);
        var has = Compile("has(area.hot_work.items)", DeclaredBearer.Area);
        Assert.True(has.Ask(Input(null, null, none)).Holds);
        Assert.False(has.Ask(Input(null, null, new WorkArea())).Holds);
    }

    [Fact]
    public void The_fields_that_were_read_are_kept_with_their_values()
    {
        var area = new WorkArea { Id = "hall", Where = new PathStep(null, "areas", "hall"), ExclusionDistance = Length.FromFeet(25), Contained = false, Enclosure = Enclosure.Roof };
        var answer = Compile("area.enclosure != 'interior' && (area.contained || area.exclusion_distance >= feet(25))", DeclaredBearer.Area).Ask(Input(null, null, area));
        Assert.True(answer.Holds);
        Assert.Equal(
            ["areas[hall].enclosure roof", "areas[hall].contained ", "areas[hall].exclusion_distance 25 ft"],
            answer.Reads.Select(read => $"{read.Node.PathOf(read.Property)} {(read.Value is { } value ? MeasureText.Show(value, DisplayUnits.Us) : "")}"));
    }

    [Fact]
    public void One_evaluation_looks_at_a_bounded_number_of_entries()
    {
        var work = Enumerable.Range(0, 400).Select(i => new WorkItem { Id = $"w{i}", Primed = true }).ToArray();
        var input = new ExpressionInput { Plan = new Plan { Work = [.. work] }, Site = new Site(), Gear = new Gear() };
        Assert.True(Compile("plan.work.all(a, a.primed)").Ask(input).Holds);
        var error = Assert.Throws<InvalidOperationException>(() => Compile("plan.work.all(a, plan.work.all(b, b.primed))").Ask(input));
        Assert.Contains("100000 entries", error.Message, StringComparison.Ordinal);
    }

    private static Condition Compile(string expression, DeclaredBearer bearer = DeclaredBearer.Job) =>
        Condition.Compile(SyntaxReader.Read(expression), ExpressionScope.Of(bearer, new Dictionary<string, Limit>()));

    private static string Names(string expression) => System.Text.RegularExpressions.Regex.Replace(expression, @"\b[ab]\b", match => match.Value == "a" ? "site.occupied" : "site.humid_use");

    private static string Short(FieldRead field) => field.Property == nameof(Site.Occupied) ? "a" : "b";

    private static bool? Given(char sign) => sign switch { '+' => true, '-' => false, _ => null };

    private static ExpressionInput Input(bool? a, bool? b, WorkArea? area = null) => new()
    {
        Plan = new Plan(),
        Site = new Site { Occupied = a, HumidUse = b, Where = new PathStep(null, "site", null) },
        Gear = new Gear { Where = new PathStep(null, "gear", null) },
        Area = area,
    };
}
