using System.Text.Json;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Exchange.Calculating;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The calculations on the command line, and the document that explains them.</summary>
public sealed class CalculationTests
{
    private const string StepsBegin = "HOW IT WAS WORKED OUT";
    private static readonly Lazy<string> Document = new(() => File.ReadAllText(Repository.PathOf("docs", "calculations.md")).ReplaceLineEndings("\n"));

    public static TheoryData<string> Names { get; } = [.. CalculationExamples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public async Task The_document_states_what_comes_out_of_its_own_inputs(string name)
    {
        var input = Block(name, "yaml");
        Assert.Equal(CalculationExamples.TextOf(name).ReplaceLineEndings("\n"), input);
        var ran = await Calc(name, "--input", CalculationExamples.FileOf(name));
        Assert.True(ran.Code == 0, ran.Errors);
        var output = ran.Output.ReplaceLineEndings("\n");
        Assert.Equal(Block(name, "text"), output[..output.IndexOf("\n" + StepsBegin, StringComparison.Ordinal)]);
        Assert.All(output.Split('\n'), line => Assert.True(line.Length < 101, line));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public async Task The_command_line_answers_what_the_engine_answers(string name)
    {
        var ran = await Calc(name, "--input", CalculationExamples.FileOf(name), "--format", "json");
        Assert.True(ran.Code == 0, ran.Errors);
        var expected = Calculators.Find(name)!.Calculate(CalculationExamples.TextOf(name), name).Response!;
        var answered = expected.Descriptor.Parser.ParseFrom(ByteString.Empty);
        Assert.Empty(MessageReader.Read(DataText.Read(ran.Output, null).Root!, answered, null));
        Assert.Equal(expected, answered);
    }

    [Fact]
    public async Task They_are_listed_a_line_each_and_each_is_explained_with_assumptions_range_source_and_an_example()
    {
        var list = await Calc();
        Assert.Equal(0, list.Code);
        var lines = list.Output.ReplaceLineEndings("\n").Split('\n');
        Assert.All(Calculators.All, calculator => Assert.Single(lines, line => line.StartsWith(calculator.Name + " ", StringComparison.Ordinal)));
        Assert.Equal(Calculators.All.Count, Array.IndexOf(lines, ""));
        foreach (var calculator in Calculators.All)
        {
            Assert.All(["**Assumes.** ", "**Range.** ", "**Source.** "], word => Assert.Contains("\n\n" + word, Section(calculator.Name), StringComparison.Ordinal));
        }

        var one = await Calc("purge");
        Assert.Equal(0, one.Code);
        Assert.All(["  Assumes  ", "  Range    ", "  Source   ", "    initial: {", "foamrules calc purge --input FILE"], word => Assert.Contains(word, one.Output, StringComparison.Ordinal));
        Assert.DoesNotContain("**", one.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Numbers_come_in_the_units_that_are_asked_for()
    {
        var us = await Calc("dew-point", "--input", CalculationExamples.FileOf("dew-point"), "--units", "us");
        Assert.Contains("48.7 °F", us.Output, StringComparison.Ordinal);
        Assert.DoesNotContain("9.3 °C", us.Output, StringComparison.Ordinal);
        var si = await Calc("dew-point", "--input", CalculationExamples.FileOf("dew-point"), "--units", "si");
        Assert.Contains("9.3 °C", si.Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Outside_the_range_the_answer_is_2_and_the_range()
    {
        var ran = await FromInput("{\"air\": {\"degreesCelsius\": 250}, \"relativeHumidity\": {\"percent\": 50}}");
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains("−100 to 200 °C", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Impossible_values_are_named_all_at_once_with_their_lines()
    {
        var ran = await FromInput("air: { degrees_celsius: -300 }\nrelative_humidity: { percent: 150 }\n");
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains("standard input(1,", ran.Errors, StringComparison.Ordinal);
        Assert.Contains("standard input(2,", ran.Errors, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Dew_points_agree_with_an_independent_library()
    {
        var folder = Repository.PathOf("tests", "node");
        Assert.SkipUnless(Programs.Has("node") && Directory.Exists(Path.Combine(folder, "node_modules", "psychrolib")), "needs Node and `npm ci` in tests/node");
        var airs = (from celsius in new[] { -30, -10, -1, 0.5, 5, 15, 20, 30, 45, 60 } from percent in new[] { 10, 35, 60, 85, 100 } select (Celsius: celsius, Percent: percent)).ToList();
        var ran = await Programs.Run("node", ["dew-points.mjs"], JsonSerializer.Serialize(airs.Select(air => new[] { air.Celsius, air.Percent })), folder);
        Assert.True(ran.Code == 0, ran.Errors);
        var theirs = JsonSerializer.Deserialize<double[]>(ran.Output)!;
        foreach (var (air, expected) in airs.Zip(theirs))
        {
            // The library takes a humidity below freezing as over ice; it searches to 0.001 K.
            var request = new DewPointRequest
            {
                Air = new Temperature { DegreesCelsius = air.Celsius },
                RelativeHumidity = new Ratio { Percent = air.Percent },
                HumidityOver = HumidityReference.Ice,
            };
            var ours = (DewPointResponse)Calculators.For(DewPointRequest.Descriptor).Calculate(request).Response!;
            Assert.Equal(expected, ours.DewPoint.DegreesCelsius, 0.005);
        }
    }

    private static Task<Ran> Calc(params string[] arguments) => Programs.FoamRules(["calc", .. arguments]);

    private static Task<Ran> FromInput(string input)
    {
        var start = Programs.FoamRulesStart("calc", "dew-point", "--input", "-");
        return Programs.Run(start.FileName, [.. start.ArgumentList], input);
    }

    private static string Section(string name)
    {
        var begin = Document.Value.IndexOf($"\n## {name}\n", StringComparison.Ordinal);
        Assert.True(begin >= 0, $"docs/calculations.md has no section {name}");
        var end = Document.Value.IndexOf("\n## ", begin + 1, StringComparison.Ordinal);
        return end < 0 ? Document.Value[begin..] : Document.Value[begin..end];
    }

    private static string Block(string name, string language)
    {
        var section = Section(name);
        var begin = section.IndexOf($"```{language}\n", StringComparison.Ordinal) + language.Length + 4;
        return section[begin..section.IndexOf("```", begin, StringComparison.Ordinal)];
    }
}
