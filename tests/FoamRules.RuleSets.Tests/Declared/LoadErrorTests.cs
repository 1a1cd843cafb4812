using System.Globalization;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.RuleSets.Tests.Declared;

/// <summary>A bad expression is refused when the rule set is read, with file, line, column and what was meant.</summary>
public sealed class LoadErrorTests : IDisposable
{
    private const string Before = """
        sources: { habit: { cite: Practice, status: common-practice } }
        topic.a-rule:
          must: It must.
          not-met: { plan: hold }
          missing: { plan: caution }
          release: [owner]
          says: "lacking: {lacks}"
          remedy: Do it.
          caution: It hurts.
          example: A hall.
          not-applicable: { applies: it does not }
          limits:
            most: { at-most: { inches: 2 }, source: habit }
            count: { at-most: { count: 3 }, source: habit }
            share: { at-least: { percent: 50 }, source: habit }
            either: { at-least: { inches: 0.25 }, or: { millimeters: 6.4 }, source: habit }

        """;

    private readonly TemporaryFolder _folder = new();

    public LoadErrorTests()
    {
        _folder.Write("base/rule-set.yaml", "title: Base\nversion: 1.0.0\nlevel: general-practice\n");
        _folder.Write("base/hazards.yaml", "unrecorded: { name: a, because: b, absent: c }\n");
    }

    public static TheoryData<string, int, string, string> Cases { get; } = ReadCases();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Cases))]
    public void It_is_refused_at_its_place(string met, int at, string found, string remedy)
    {
        var violation = Assert.Single(Load($"  bearer: area\n  hazard: unrecorded\n  met: \"{met}\"\n"));
        Assert.Equal(("base/topic.yaml", 19, 8 + at, "topic.a-rule.met"), (violation.File, violation.Line, violation.Column, violation.Path));
        Assert.Contains(found, violation.Found, StringComparison.Ordinal);
        Assert.Equal(remedy, violation.Remedy);
    }

    [Theory]
    [InlineData("  met: >-\n    area.contained\n    && area.nigt_work\n", 19, 13)]
    [InlineData("  met: |\n    area.contained &&\n      area.nigt_work\n", 19, 12)]
    [InlineData("  met: area.contained && area.nigt_work\n", 17, 31)]
    [InlineData("  met: 'area.enclosure == ''roof'' && area.nigt_work'\n", 17, 44)]
    [InlineData("  met: \"area.enclosure == \\\"roof\\\" && area.nigt_work\"\n", 17, 44)]
    [InlineData("  met: \"true\"\n  applies: \"area.nigt_work\"\n", 18, 18)]
    [InlineData("  met: \"true\"\n  needs: [area.contained, area.nigt_work]\n", 18, 32)]
    public void The_place_is_found_however_the_text_is_written(string lines, int line, int column)
    {
        var violation = Assert.Single(Load(lines + "  bearer: area\n  hazard: unrecorded\n"));
        Assert.Equal((line, column, "did you mean night_work?"), (violation.Line, violation.Column, violation.Remedy));
    }

    [Theory]
    [InlineData("  bearer: areas\n  hazard: unrecorded\n  met: \"true\"\n", 17, "`areas`")]
    [InlineData("  bearer: area\n  hazard: unrecorder\n  met: \"true\"\n", 18, "the unknown hazard `unrecorder`")]
    [InlineData("  bearer: area\n  met: \"true\"\n", 3, "nothing")]
    [InlineData("  bearer: area\n  hazard: unrecorded\n", 3, "nothing")]
    [InlineData("  bearer: area\n  hazard: unrecorded\n  met: [a, b]\n", 19, "a mapping or a list")]
    [InlineData("  bearer: area\n  hazard: unrecorded\n  met: \"true\"\n  needs: [area.contained == true]\n", 20, "`area.contained == true`")]
    public void What_stands_around_is_checked_too(string lines, int line, string found)
    {
        var violations = Load(lines);
        Assert.Contains(violations, violation => violation.Found == found && violation.Line == line);
    }

    [Theory]
    [InlineData("says", "lacking: {value}", "the placeholder {value}")]
    [InlineData("remedy", "Do {that}.", "the placeholder {that}")]
    public void A_word_that_no_report_could_fill_is_refused(string name, string text, string found)
    {
        var before = string.Join("\n", Before.Split('\n').Select(line => line.StartsWith($"  {name}:", StringComparison.Ordinal) ? $"  {name}: \"{text}\"" : line));
        Assert.Equal(found, Assert.Single(Load("  bearer: area\n  hazard: unrecorded\n  met: \"area.contained\"\n", before)).Found);
        Assert.Equal(name == "says" ? 0 : 1, Load("  bearer: area\n  hazard: unrecorded\n  met: \"area.exclusion_distance <= limits.most\"\n", before).Count);
    }

    [Theory]
    [InlineData("caution")]
    [InlineData("remedy")]
    [InlineData("example")]
    [InlineData("says")]
    [InlineData("not-applicable")]
    public void A_declared_requirement_has_all_its_words(string name)
    {
        var before = string.Join("\n", Before.Split('\n').Where(line => !line.StartsWith($"  {name}:", StringComparison.Ordinal)));
        Assert.Equal($"no {name}", Assert.Single(Load("  bearer: area\n  hazard: unrecorded\n  applies: \"area.contained\"\n  met: \"true\"\n", before)).Found);
    }

    [Fact]
    public void A_layer_above_tightens_limits_but_does_not_judge_anew()
    {
        _folder.Write("top/rule-set.yaml", "title: Top\nversion: 1.0.0\nlevel: company\nabove: base\n");
        _folder.Write("top/topic.yaml", "topic.a-rule:\n  bearer: area\n  hazard: unrecorded\n  met: \"true\"\n");
        var violation = Assert.Single(Load("  bearer: area\n  hazard: unrecorded\n  met: \"area.contained\"\n"));
        Assert.Contains("says already", violation.Found, StringComparison.Ordinal);
        _folder.Write("top/topic.yaml", "sources: { own: { cite: Own, status: common-practice } }\ntopic.a-rule:\n  limits: { most: { at-most: { inches: 1 }, source: own } }\n");
        Assert.Empty(Load("  bearer: area\n  hazard: unrecorded\n  met: \"area.exclusion_distance <= limits.most\"\n"));
        var spec = RuleLibrary.Load(_folder.Path, out _)!.Everything().Requirements["topic.a-rule"];
        Assert.Equal("top", Assert.Single(CompiledRule.Compile(spec).Met).Against!.Layer);
    }

    [Fact]
    public void What_is_too_large_is_refused()
    {
        Assert.Throws<ExpressionException>(() => SyntaxReader.Read(new string(' ', SyntaxReader.MaxLength) + "true"));
        Assert.Throws<ExpressionException>(() => SyntaxReader.Read(string.Join(" && ", Enumerable.Repeat("true", (SyntaxReader.MaxTokens / 2) + 1))));
        Assert.Throws<ExpressionException>(() => SyntaxReader.Read(new string('(', SyntaxReader.MaxDepth + 1) + "true" + new string(')', SyntaxReader.MaxDepth + 1)));
        Assert.NotNull(SyntaxReader.Read(new string('(', SyntaxReader.MaxDepth) + "true" + new string(')', SyntaxReader.MaxDepth)));
        foreach (var compiled in new[] { false, true })
        {
            Assert.Equal(new PlainRun(null, null, true), PlainRun.Of(string.Join(" && ", Enumerable.Repeat("true", 400)), compiled));
            Assert.Equal(new PlainRun(null, null, true), PlainRun.Of(string.Join(" ", Enumerable.Repeat("true ? true :", 200)) + " true", compiled));
        }
    }

    private IReadOnlyList<Violation> Load(string lines, string before = Before)
    {
        _folder.Write("base/topic.yaml", before + lines);
        RuleLibrary.Load(_folder.Path, out var violations);
        return violations;
    }

    private static TheoryData<string, int, string, string> ReadCases()
    {
        var path = Repository.PathOf("tests", "FoamRules.RuleSets.Tests", "Declared", "load-errors.yaml");
        var data = new TheoryData<string, int, string, string>();
        foreach (var node in ((ListNode)DataText.Read(File.ReadAllText(path), path).Root!).Items.Cast<MapNode>())
        {
            data.Add(Text("met"), int.Parse(Text("at"), CultureInfo.InvariantCulture), Text("found"), Text("remedy"));

            string Text(string name) => ((ScalarNode)node[name]!).Text ?? "null";
        }

        return data;
    }
}
