using FoamRules.Model;
using FoamRules.Testing;
using Google.Protobuf;

namespace FoamRules.Exchange.Tests;

/// <summary>What can be read, and that it is the same from YAML, JSON and messages.</summary>
public sealed class PlanReaderTests
{
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 14, 7, 40, 0, TimeSpan.FromHours(-5)));

    [Fact]
    public void Yaml_json_and_messages_give_the_same_plan()
    {
        var file = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");
        var yaml = PlanReader.ReadText(File.ReadAllText(file), file, Now);
        var json = PlanReader.ReadText(JsonFormatter.Default.Format(yaml.Message), "plan.json", Now);
        var original = PlanReader.ReadText(new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true)).Format(yaml.Message), "plan.json", Now);
        var message = PlanReader.ReadMessage(Contracts.V1.Plan.Parser.ParseFrom(yaml.Message!.ToByteArray()), Now);
        Assert.Empty(yaml.Violations);
        Assert.Equal(yaml.Message, json.Message);
        Assert.Equal(yaml.Message, original.Message);
        Assert.Equal([yaml.Digest, yaml.Digest, yaml.Digest], [json.Digest, original.Digest, message.Digest]);
    }

    [Fact]
    public void The_library_reads_our_json_as_we_do()
    {
        for (ulong seed = 1; seed <= 50; seed++)
        {
            var plan = RandomPlans.Make(seed, 2);
            var json = JsonFormatter.Default.Format(plan);
            var ours = PlanReader.ReadText(json, "plan.json", Now);
            Assert.Empty(ours.Violations);
            var theirs = JsonParser.Default.Parse<Contracts.V1.Plan>(json);
            theirs.JudgedAt ??= Google.Protobuf.WellKnownTypes.Timestamp.FromDateTimeOffset(Now.Now);
            Assert.Equal(theirs, ours.Message);
        }
    }

    [Fact]
    public void Now_is_written_in_only_where_the_plan_does_not_say_it()
    {
        Assert.Equal(Now.Now, Read("").Plan!.JudgedAt);
        Assert.Equal(new DateTimeOffset(2026, 1, 2, 3, 4, 5, TimeSpan.Zero), Read("judged_at: 2026-01-02T03:04:05Z").Plan!.JudgedAt);
    }

    [Fact]
    public void The_caller_s_stage_stands_for_the_plan_s_own()
    {
        var read = PlanReader.ReadText("name: x\nareas: [{id: a}]\nproducts: [{id: p}]\nwork: [{id: w, area: a, product: p, spray: {}}]", null, Now with { Stage = Stage.PreStart });
        Assert.Equal(Stage.PreStart, read.Plan!.Stage);
    }

    [Fact]
    public void What_is_not_given_is_null_and_an_empty_list_that_is_given_is_not()
    {
        var fill = Read("", "cavity_fill: { vent_holes: { holes: [] } }").Plan!.Work[0].CavityFill!;
        Assert.Null(fill.FillHoles);
        Assert.NotNull(fill.VentHoles);
        Assert.Empty(fill.VentHoles.Holes);
        Assert.Null(fill.CompartmentsMapped);
        Assert.Null(fill.Cavity);
    }

    [Fact]
    public void The_product_sheets_that_ship_can_be_copied_into_a_plan()
    {
        var files = Directory.GetFiles(Repository.PathOf("shared", "products"), "*.yaml");
        Assert.NotEmpty(files);
        foreach (var file in files)
        {
            var sheet = string.Join('\n', File.ReadAllLines(file).Select((line, i) => (i == 0 ? "- " : "  ") + line)).Replace("- #", "-\n  #", StringComparison.Ordinal);
            var id = Path.GetFileNameWithoutExtension(file);
            var read = PlanReader.ReadText($"name: x\nstage: plan\nareas: [{{id: a}}]\nwork: [{{id: w, area: a, product: {id}, spray: {{}}}}]\nproducts:\n{sheet}\n", file, Now);
            Assert.Empty(read.Violations);
            Assert.NotNull(read.Plan!.Products[0].SheetRevision);
        }
    }

    [Fact]
    public void A_part_of_the_plan_knows_where_it_stands()
    {
        var plan = Read("", "cavity_fill: { fill_holes: { holes: [{ diameter: { inches: 0.5 } }] } }").Plan!;
        Assert.Equal("work[w].cavity_fill.fill_holes.holes[0].diameter", plan.Work[0].CavityFill!.FillHoles!.Holes[0].PathOf(nameof(Hole.Diameter)));
        Assert.Equal("work_date", plan.PathOf(nameof(Plan.WorkDate)));
    }

    [Theory]
    [InlineData("min_pass_thickness: { inches: 2 }, max_pass_thickness: { millimeters: 50.8 }")]
    [InlineData("min_surface_temperature: { degrees_fahrenheit: 100 }, max_surface_temperature: { degrees_celsius: 37.7777777778 }")]
    [InlineData("lots: [{ id: l, made: 2026-02-02, bought: 2026-02-02 }]")]
    [InlineData("max_pass_thickness: { inches: 1 }")]
    public void A_greatest_value_may_be_the_least_whatever_its_unit(string sheet)
    {
        var text = $"name: x\nstage: plan\nareas: [{{ id: a }}]\nproducts: [{{ id: p, {sheet} }}]\nwork: [{{ id: w, area: a, product: p, spray: {{ }} }}]\n";
        Assert.Empty(PlanReader.ReadText(text, "plan.yaml", new ReadOptions(DateTimeOffset.UnixEpoch)).Violations);
    }

    [Theory]
    [InlineData("closed-cell-pour")]
    [InlineData("CLOSED_CELL_POUR")]
    [InlineData("FOAM_KIND_CLOSED_CELL_POUR")]
    [InlineData("closed cell pour")]
    [InlineData("4")]
    public void A_name_may_be_written_as_a_person_writes_it(string kind)
    {
        var read = PlanReader.ReadText($"name: x\nstage: plan\nareas: [{{id: a}}]\nproducts: [{{id: p, kind: {kind}}}]\nwork: [{{id: w, area: a, product: p, spray: {{}}}}]", null, Now);
        Assert.Equal(FoamKind.ClosedCellPour, read.Plan!.Products[0].Kind);
    }

    private static PlanRead Read(string more, string work = "spray: {}") =>
        PlanReader.ReadText($"name: x\nstage: plan\nareas: [{{id: a}}]\nproducts: [{{id: p}}]\nwork: [{{id: w, area: a, product: p, {work}}}]\n{more}", null, Now);
}
