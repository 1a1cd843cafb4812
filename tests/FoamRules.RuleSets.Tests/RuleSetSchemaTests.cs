using FoamRules.RuleSets.Schemas;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.RuleSets.Tests;

/// <summary>The JSON Schemas of a rule set's files say what the reader says.</summary>
public sealed class RuleSetSchemaTests
{
    public static TheoryData<string> Names { get; } = [.. RuleSetSchema.All.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void The_schema_that_is_there_is_the_one_that_the_reader_gives(string name)
    {
        var text = ReadableJson.Write(RuleSetSchema.All[name]());
        Assert.Equal(text, Generated.Read(SchemaFile.PathOf(name), text));
    }

    [Fact]
    public void Every_file_of_every_rule_set_fits()
    {
        var schemas = RuleSetSchema.All.Keys.ToDictionary(name => name, SchemaFile.Read);
        var wrong = new List<string>();
        foreach (var file in RuleSetFiles.Below(Repository.PathOf("rulesets")).SelectMany(set => set.Files.Select(file => (Path: $"{set.Id}/{file.Name}", file))))
        {
            wrong.AddRange(schemas[KindOf(file.file.Name)].CheckYaml(file.file.Text, file.Path).Select(error => $"{file.Path}: {error}"));
        }

        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong.Take(20)));
    }

    [Theory]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: town\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\nvresion: 2\n")]
    [InlineData("rule-set.yaml", "title: [T]\nversion: 1.0.0\nlevel: company\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\nstatus: ready\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\neffective: { from: tomorrow }\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\neffective: { form: 2026-01-01 }\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\njurisdiction: { country: usa }\n")]
    [InlineData("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\njurisdiction: { region: US-WA }\n")]
    [InlineData("sources.yaml", "a: { cite: A }\n")]
    [InlineData("sources.yaml", "a: { cite: A, status: hearsay }\n")]
    [InlineData("sources.yaml", "a: A\n")]
    [InlineData("hazards.yaml", "a: { name: n, because: b }\n")]
    [InlineData("texts.yaml", "a: { b: c }\n")]
    [InlineData("price.yaml", "a: { what: w, quantity: once, how: h }\n")]
    [InlineData("price.yaml", "a: { what: w, asked-by: vent.a, quantity: once, how: h, whose: me }\n")]
    [InlineData("price.yaml", "a: { what: w, asked-by: vent.a, quantity: once }\n")]
    [InlineData("questions.yaml", "work: { kind: Which? }\n")]
    [InlineData("languages/es/language.yaml", "language: es\nreviewer: me\n")]
    [InlineData("languages/es/language.yaml", "reviewed-by: me\n")]
    [InlineData("languages/es/language.yaml", "language: es\ndecimal-mark: x\n")]
    [InlineData("languages/es/vent.yaml", "vent.a: { not-met: { plan: stop } }\n")]
    [InlineData("languages/es/vent.yaml", "vent: { must: Sí. }\n")]
    [InlineData("languages/es/vent.yaml", "vent.a: { must: { a: b } }\n")]
    [InlineData("languages/es/texts.yaml", "a: { b: c }\n")]
    [InlineData("languages/es/hazards.yaml", "fall: { nombre: caída }\n")]
    [InlineData("languages/es/price.yaml", "fans: { unit: piezas }\n")]
    [InlineData("languages/es/price.yaml", "fans: { what: [a] }\n")]
    [InlineData("languages/es/questions.yaml", "work: { kind: ¿Cuál? }\n")]
    [InlineData("parameters.yaml", "a: { is: { cubits: 1 }, source: s }\n")]
    [InlineData("parameters.yaml", "a: { is: 1, source: s }\n")]
    [InlineData("vent.yaml", "vent: { must: Yes. }\n")]
    [InlineData("vent.yaml", "vent.a: { muts: Yes. }\n")]
    [InlineData("vent.yaml", "vent.a: { not-met: { plan: halt } }\n")]
    [InlineData("vent.yaml", "vent.a: { not-met: { someday: stop } }\n")]
    [InlineData("vent.yaml", "vent.a: { bearer: roof }\n")]
    [InlineData("vent.yaml", "vent.a: { release: { a: b } }\n")]
    [InlineData("vent.yaml", "vent.a: { tiers: { worse: { met: { plan: stop } } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { at-most: { inches: 1 }, at-least: { inches: 1 }, source: s } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { at-most: { inches: 1, feet: 2 }, source: s } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { at-most: { count: 1.5 }, source: s } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { at-most: { inches: one }, source: s } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { at-most: { inches: 1 }, source: s, relaxes: true } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { c: { at-most: { inches: 1 }, suorce: s } } } }\n")]
    [InlineData("vent.yaml", "vent.a: { limits: { b: { allows: some, source: s, c: { at-most: { inches: 1 } } } } }\n")]
    public void A_spoiled_file_is_refused_by_the_schema_and_by_the_reader(string name, string text)
    {
        Assert.NotEmpty(SchemaFile.Read(KindOf(name)).CheckYaml(text, name));
        var files = new List<RuleSetFile> { new(name, text) };
        if (name != "rule-set.yaml")
        {
            files.Add(new RuleSetFile("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\n"));
        }

        if (name != "sources.yaml")
        {
            files.Add(new RuleSetFile("sources.yaml", "s: { cite: S, status: read }\n"));
        }

        if (name.StartsWith("languages/", StringComparison.Ordinal))
        {
            // What is translated is there; the spoiled file alone is at fault.
            files.AddRange(
            [
                new RuleSetFile("vent.yaml", "vent.a: { must: Yes. }\n"), new RuleSetFile("texts.yaml", "a: b\n"), new RuleSetFile("questions.yaml", "work: Which?\n"),
                new RuleSetFile("hazards.yaml", "fall: { name: n, because: b, absent: a }\n"), new RuleSetFile("price.yaml", "fans: { what: w, asked-by: vent.a, quantity: once, how: h }\n"),
            ]);
            if (!name.EndsWith("/language.yaml", StringComparison.Ordinal))
            {
                files.Add(new RuleSetFile("languages/es/language.yaml", "language: es\n"));
            }
        }

        Assert.All(RuleSetReader.Read(new RuleSetFiles("spoiled", [.. files])).Violations, violation => Assert.Equal($"spoiled/{name}", violation.File));
        Assert.NotEmpty(RuleSetReader.Read(new RuleSetFiles("spoiled", [.. files])).Violations);
    }

    [Theory]
    [InlineData("vent.a: { limits: { b: { at-most: { inches: 1 }, or: { millimeters: 25 }, source: s, relaxes: true, authority: me, note: n } } }\n")]
    [InlineData("vent.a: { limits: { group: { source: s, b: { is: { date: 2026-01-01 }, tighter: lower }, c: { d: { any-of: [x, y] } } } } }\n")]
    [InlineData("vent.a: { says: it is so, remedy: { not-met: mend it }, release: owner, sources: s }\n")]
    public void Every_form_that_the_reader_knows_fits(string text)
    {
        Assert.Empty(SchemaFile.Read("rule-set-topic").CheckYaml(text, "vent.yaml"));
        Assert.Empty(RuleSetReader.Read(new RuleSetFiles("good",
        [
            new RuleSetFile("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: company\n"), new RuleSetFile("sources.yaml", "s: { cite: S, status: read }\n"), new RuleSetFile("vent.yaml", text),
        ])).Violations);
    }

    [Fact]
    public void Where_a_file_names_its_schema_that_schema_is_there()
    {
        const string Names = "# yaml-language-server: $schema=";
        string[] folders = [Repository.PathOf("rulesets"), Repository.PathOf("shared", "plans")];
        var named = 0;
        foreach (var file in folders.SelectMany(folder => Directory.GetFiles(folder, "*.yaml", SearchOption.AllDirectories)))
        {
            foreach (var line in File.ReadLines(file).Where(line => line.StartsWith(Names, StringComparison.Ordinal)))
            {
                named++;
                var wanted = Path.GetFileName(Path.GetDirectoryName(file)) == "plans" ? "plan" : KindOf(Path.GetFileName(file));
                Assert.Equal(SchemaFile.PathOf(wanted), Path.GetFullPath(Path.Combine(Path.GetDirectoryName(file)!, line[Names.Length..])));
            }
        }

        Assert.True(named > 0);
    }

    private static string KindOf(string file) => Path.GetFileNameWithoutExtension(file) switch
    {
        "language" => "rule-set-language",
        var name when file.StartsWith("languages/", StringComparison.Ordinal) => RuleSetSchema.All.ContainsKey($"rule-set-language-{name}") ? $"rule-set-language-{name}" : "rule-set-language-topic",
        "rule-set" => "rule-set",
        var name when RuleSetSchema.All.ContainsKey($"rule-set-{name}") => $"rule-set-{name}",
        _ => "rule-set-topic",
    };
}
