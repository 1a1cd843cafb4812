using System.Text.Json.Nodes;
using FoamRules.Exchange.Schemas;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;

namespace FoamRules.Exchange.Tests;

/// <summary>The JSON Schema of plans says what the reader says.</summary>
public sealed class PlanSchemaTests(ITestOutputHelper output)
{
    private static readonly Lazy<SchemaFile> Schema = new(() => SchemaFile.Read("plan"));
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    // What a schema cannot see: whether a name is that of another entry, and whether a day or a zone is there at all.
    private static readonly string[] Unseen = ["a second time", "the id of an entry", "an IANA time zone", "a calendar date", "not before ", "not below ", "none beside others"];

    [Fact]
    public void The_schema_that_is_there_is_the_one_that_the_contract_gives()
    {
        var text = ReadableJson.Write(PlanSchema.Create());
        Assert.Equal(text, Generated.Read(SchemaFile.PathOf("plan"), text));
    }

    [Fact]
    public void Every_example_and_the_plans_of_cases_fit()
    {
        var wrong = new List<string>();
        foreach (var file in Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Concat(Directory.GetFiles(Repository.PathOf("shared", "cases", "base"), "*.yaml")))
        {
            wrong.AddRange(Schema.Value.CheckYaml(File.ReadAllText(file), file).Select(error => $"{file}: {error}"));
        }

        var cases = CaseFiles.Read().SelectMany(file => file.Firsts()).ToList();
        wrong.AddRange(cases.SelectMany(one => Schema.Value.Check(one.PlanJson).Select(error => $"{one}: {error}")));
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong.Take(20)));
        Assert.NotEmpty(cases);
    }

    [Fact]
    public void Random_plans_fit_under_either_name_of_their_fields()
    {
        var own = new JsonFormatter(JsonFormatter.Settings.Default.WithPreserveProtoFieldNames(true));
        for (var seed = 0UL; seed < 60; seed++)
        {
            var plan = RandomPlans.Make(seed, 2);
            foreach (var json in new[] { JsonFormatter.Default.Format(plan), own.Format(plan) })
            {
                var errors = Schema.Value.Check(json);
                Assert.True(errors.Count == 0, $"seed {seed}: {string.Join("; ", errors.Take(5))}");
            }
        }
    }

    [Theory]
    [InlineData("nmae", "\"a name that nobody knows\"")]
    [InlineData("name", "\"\"")]
    [InlineData("name", "null")]
    [InlineData("stage", "\"someday\"")]
    [InlineData("stage", "17")]
    [InlineData("work", "[]")]
    [InlineData("work", "{}")]
    [InlineData("work", "[null]")]
    [InlineData("work_date", "\"14 April\"")]
    [InlineData("work_date", "\"2026-13-01\"")]
    [InlineData("judged_at", "\"2026-04-10T09:00:00\"")]
    [InlineData("jurisdiction", "{ \"country\": \"usa\" }")]
    [InlineData("jurisdiction", "{ \"region\": \"Minnesota\" }")]
    [InlineData("jurisdiction", "\"US\"")]
    [InlineData("products[0].id", "\"has a space\"")]
    [InlineData("products[0].kind", "\"closed-cell\"")]
    [InlineData("work[0].cavity_fill", "{}", "work[0].spray", "{}")]
    [InlineData("work[0].cavity_fill", "null", "work[0].spray", "null")]
    [InlineData("work[0].spray", "{ \"thickness\": { \"inches\": 2, \"millimeters\": 50 } }")]
    [InlineData("work[0].spray", "{ \"thickness\": { \"cubits\": 2 } }")]
    [InlineData("work[0].spray", "{ \"thickness\": { \"inches\": -2 } }")]
    [InlineData("work[0].spray", "{ \"thickness\": { \"inches\": \"thick\" } }")]
    [InlineData("work[0].spray", "{ \"thickness\": { \"inches\": 2e13 } }")]
    [InlineData("work[0].spray", "{ \"thickness\": {} }")]
    [InlineData("work[0].spray", "{ \"thickness\": 2 }")]
    [InlineData("gear", "{ \"hose_count\": 1 }")]
    [InlineData("areas[0].readings", "[{ \"kind\": \"relative-humidity\", \"humidity\": { \"percent\": 140 } }]")]
    [InlineData("areas[0].readings", "[{ \"kind\": \"relative-humidity\", \"humidity\": { \"decimal_fractions\": 1.4 } }]")]
    [InlineData("areas[0].readings", "[{ \"kind\": \"air-temperature\", \"temperature\": { \"degrees_celsius\": -300 } }]")]
    [InlineData("review", "{ \"open_stops\": 1.5 }")]
    [InlineData("review", "{ \"open_stops\": -1 }")]
    [InlineData("site", "{ \"occupied\": \"perhaps\" }")]
    public void A_spoiled_plan_is_refused_by_the_schema_and_by_the_reader(params string[] changes)
    {
        var plan = Example();
        foreach (var (path, value) in changes.Chunk(2).Select(pair => (pair[0], pair[1])))
        {
            TreeEdit.Set(plan, path, null);
            var parsed = JsonNode.Parse(value);
            if (parsed is null)
            {
                continue;
            }

            TreeEdit.Set(plan, path, parsed);
        }

        // A taken out name or kind of work is as bad as an empty one.
        Assert.NotEmpty(Schema.Value.Check(plan.ToJsonString()));
        Assert.NotEmpty(PlanReader.ReadText(plan.ToJsonString(), null, Now).Violations);
    }

    [Fact]
    public void The_schema_sees_the_bad_plans_of_every_door_but_for_what_a_schema_cannot_see()
    {
        var missed = new List<string>();
        foreach (var bad in BadPlan.Read().Where(bad => DataText.Read(bad.Text, null).Root is not null))
        {
            var violations = PlanReader.ReadText(bad.Text, null, Now).Violations;
            if (violations.All(CannotBeSeen) || bad.Text.Contains("NaN", StringComparison.Ordinal))
            {
                continue;
            }

            if (Schema.Value.CheckYaml(bad.Text, bad.Says).Count == 0)
            {
                missed.Add($"{bad.Says}: {string.Join("; ", violations)}");
            }
        }

        Assert.True(missed.Count == 0, string.Join(Environment.NewLine, missed));
    }

    [Fact]
    public void What_the_schema_accepts_the_reader_can_read()
    {
        var random = new Random(4711);
        string[] values = ["null", "\"x\"", "-1", "0", "3.5", "1e13", "true", "{}", "[]", "[{}]", "\"2026-13-45\"", "\"closed_cell_pour\"", "\"07:00\"", "{\"inches\":1}", "{\"percent\":50}"];
        var (fits, refused) = (0, 0);
        for (var round = 0; round < 600; round++)
        {
            var plan = round % 2 == 0 ? Example() : JsonNode.Parse(JsonFormatter.Default.Format(RandomPlans.Make((ulong)round, 1)))!;
            Change(plan, random, JsonNode.Parse(values[random.Next(values.Length)]));
            var text = plan.ToJsonString();
            if (Schema.Value.Check(text).Count > 0)
            {
                refused++;
                continue;
            }

            fits++;
            var wrong = PlanReader.ReadText(text, null, Now).Violations.Where(violation => !CannotBeSeen(violation)).ToList();
            Assert.True(wrong.Count == 0, $"round {round}: the schema accepts {string.Join("; ", wrong)}");
        }

        output.WriteLine($"{fits} plans fit, {refused} were refused");
        Assert.True(fits > 50 && refused > 100);
    }

    private static bool CannotBeSeen(Model.Violation violation) => Unseen.Any(words => violation.Allowed.Contains(words, StringComparison.Ordinal) || violation.Found.Contains(words, StringComparison.Ordinal));

    // Anywhere in the tree, each place as likely as another.
    private static void Change(JsonNode root, Random random, JsonNode? value)
    {
        var places = new List<(JsonNode Parent, string? Name, int Index)>();
        Gather(root);
        var (parent, name, index) = places[random.Next(places.Count)];
        if (parent is JsonArray list)
        {
            list[index] = value;
        }
        else
        {
            parent.AsObject()[name!] = value;
        }

        void Gather(JsonNode node)
        {
            if (node is JsonObject map)
            {
                places.AddRange(map.Select(pair => ((JsonNode)map, (string?)pair.Key, 0)));
                foreach (var child in map.Select(pair => pair.Value).OfType<JsonNode>())
                {
                    Gather(child);
                }
            }
            else if (node is JsonArray array)
            {
                places.AddRange(array.Select((_, i) => ((JsonNode)array, (string?)null, i)));
                foreach (var child in array.OfType<JsonNode>())
                {
                    Gather(child);
                }
            }
        }
    }

    private static JsonNode Example()
    {
        var file = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");
        return TreeEdit.ToJson(DataText.Read(File.ReadAllText(file), file).Root!)!;
    }
}
