using System.Text.RegularExpressions;
using FoamRules.Model;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.Exchange.Tests;

/// <summary>What is wrong with a plan is said in each language: every pattern has its words there, with the same places.</summary>
public sealed partial class ViolationWordsTests
{
    private static readonly ReadOptions Now = new(DateTimeOffset.UnixEpoch);

    private static readonly Lazy<HashSet<string>> Patterns = new(() =>
        [.. BrokenPlans().SelectMany(text => PlanReader.ReadText(text, "plan.yaml", Now).Violations).SelectMany(violation => violation.Words).SelectMany(Spoken)]);

    public static TheoryData<string> Languages { get; } = ["es", "fr"];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_word_that_refuses_a_plan_is_translated(string language)
    {
        Assert.InRange(Patterns.Value.Count, 60, 1000);
        var words = ViolationWords.Of(language);
        var lacking = Patterns.Value.Where(pattern => !words.ContainsKey(pattern)).Order(StringComparer.Ordinal).ToList();
        Assert.True(lacking.Count == 0, string.Join(Environment.NewLine, lacking));
    }

    // What these files say reaches a person as it stands there; what does not is named below.
    private static readonly string[] Sources =
    [
        "Access/Callers", "Access/Gate", "Access/Limiting", "Access/Problem", "Access/Prover", "Cli/Commands/AmendedPlan", "Cli/Commands/Checker", "Cli/Commands/StreamChecker",
        "Records/Reviews/Decide", "Records/Reviews/ReentryDecision", "Records/Reviews/ReleaseRules", "Records/Reviews/ReviewDesk", "Records/Reviews/ReviewList", "Records/Reviews/Words",
        "Service/PlanCheckEndpoint", "Service/RequestInterceptor", "Service/ReviewInterceptor", "Service/RuleCatalogEndpoint", "Service/Statuses",
        "Service/Http/CallProblem", "Service/Http/HttpBody", "Service/Http/HttpInput",
    ];

    private static readonly string[] ForNobody =
    [
        // A scheme, a partition of a limit, and names that pages have words of their own for.
        "Bearer ", "address {0}", "by API key", "by token", "by certificate", "proceed with cautions",
        // An option that cannot be used is answered in English, as the help is.
        "--server: found `{0}`; allowed: an address like http://localhost:5080",
    ];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_sentence_of_the_record_the_gate_and_the_service_is_translated(string language)
    {
        // Log messages are for whoever keeps the service; an attribute holds them.
        var said = Sources.SelectMany(name => SourceWords.Of(Attribute().Replace(File.ReadAllText(Repository.PathOf("src", $"FoamRules.{name}.cs")), "")))
            .Where(text => text.Contains(' ', StringComparison.Ordinal) && text.Any(char.IsAsciiLetterLower)).Except(ForNobody).ToHashSet();
        Assert.InRange(said.Count, 120, 1000);
        Assert.Empty(said.Except(ViolationWords.Of(language).Keys));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Every_reason_for_which_a_calculation_gives_no_number_is_translated(string language)
    {
        var sources = Directory.EnumerateFiles(Repository.PathOf("src", "FoamRules.Calculations"), "*.cs", SearchOption.AllDirectories).Where(file => !file.Contains("obj", StringComparison.Ordinal)).Select(File.ReadAllText).ToList();
        var said = sources.SelectMany(source => SourceWords.Within(source, Refusing()).Concat(Kept().Matches(source).SelectMany(kept => SourceWords.Of(kept.Value))))
            .Where(text => text.Any(char.IsLetter) && text != "yyyy-MM-dd HH:mm").ToHashSet();
        Assert.InRange(said.Count, 400, 2000);
        var words = ViolationWords.Of(language);
        var lacking = said.Where(text => !words.ContainsKey(text) && Refusal.Range(Place().Replace(text, "1")).Pattern is var range && range.Any(char.IsLetter) && !words.ContainsKey(range)).Order(StringComparer.Ordinal).ToList();
        Assert.True(lacking.Count == 0, string.Join(Environment.NewLine, lacking));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void What_calc_and_review_answer_is_translated(string language)
    {
        string[] files = ["Commands/CalcCommand", "Commands/Service/ReviewCall", "Output/CalculationText", "Commands/InputFile"];
        var said = files.SelectMany(name => SourceWords.Within(File.ReadAllText(Repository.PathOf("src", "FoamRules.Cli", $"{name}.cs")), Telling())).Where(text => text.Any(char.IsAsciiLetterLower)).ToHashSet();
        Assert.InRange(said.Count, 12, 100);
        Assert.Empty(said.Except(ViolationWords.Of(language).Keys));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void Each_unit_in_which_a_limit_is_said_has_its_word(string language)
    {
        var units = Contracts.V1.Length.Descriptor.File.MessageTypes.Select(quantity => quantity.Fields.InDeclarationOrder()[0].Name.Replace('_', ' ')).ToList();
        Assert.Contains("millimeters", units);
        Assert.Empty(units.Except(ViolationWords.Of(language).Keys));
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_translation_keeps_the_places(string language) =>
        Assert.All(ViolationWords.Of(language), pair => Assert.Equal(Places(pair.Key), Places(pair.Value)));

    [Fact]
    public void Both_languages_have_the_same_patterns() =>
        Assert.Equal(ViolationWords.Of("es").Keys.Order(StringComparer.Ordinal), ViolationWords.Of("fr").Keys.Order(StringComparer.Ordinal));

    [Fact]
    public void A_violation_is_said_in_the_language_and_what_was_found_stays()
    {
        var violation = PlanReader.ReadText("name: x\nstage: nevar {0}\n", "job.yaml", Now).Violations.Single(one => one.Path == "stage");
        Assert.Equal("job.yaml(2,8): stage: found `nevar {0}`; allowed: one of quote, plan, pre-start, close-out; use one of these names", violation.ToString());
        Assert.Equal("job.yaml(2,8): stage: se encontró `nevar {0}`; se permite: uno de quote, plan, pre-start, close-out; usar uno de estos nombres", ViolationWords.In([violation], "es-MX").Single().ToString());
        Assert.Same(violation, ViolationWords.In([violation], "en").Single());
        Assert.Same(violation, ViolationWords.In([violation], "xx").Single());
    }

    // The bad plans, and an example with each of its values spoiled in every way.
    private static IEnumerable<string> BrokenPlans()
    {
        foreach (var plan in BadPlan.Read())
        {
            yield return plan.Text;
        }

        string[] whole = ["", "[]", "a: [", "{\"a\": ", "{\"name\": \"a\", \"name\": \"b\"}", "name: a\nname: b\n", "name: &x a\nstage: *x\n", "name: a\n---\nname: b\n", "name: a\n? [b]\n: c\n",
            "products: []\nwork: [{ id: w, product: p }]\n", "products: [{ id: p, kind: 99, kimd: x, zzzzzzzz: 1 }]\n", "name: x\nareas: [{ id: a, air_volume: { } }]\n"];
        foreach (var text in whole)
        {
            yield return text;
        }

        var example = TreeEdit.ToJson(DataText.Read(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), null).Root!)!.ToJsonString();
        string[] spoiled = ["\"???\"", "-1e30", "1e30", "-5", "99", "[1]", "{\"a\": 1}", $"\"{new string('x', 3000)}\"", "\"2026-99-99\"", "\"NaN\"", "[]", "{\"feet\": 1, \"inches\": 2}"];
        // Each field once, wherever it stands.
        foreach (var value in Value().Matches(example).DistinctBy(value => value.Groups["name"].Value).Select(value => value.Groups["value"]))
        {
            foreach (var spoil in spoiled)
            {
                yield return example[..value.Index] + spoil + example[(value.Index + value.Length)..];
            }
        }
    }

    private static IEnumerable<string> Spoken(Said said) =>
        said.Parts.SelectMany(Spoken).Concat(said.IsName || !said.Pattern.Any(char.IsLetter) ? [] : [said.Pattern]);

    private static string Places(string text) => string.Join(" ", Place().Matches(text).Select(match => match.Value).Order(StringComparer.Ordinal));

    [GeneratedRegex(@"""(?<name>[a-z_]+)"":(?<value>""(\\.|[^""\\])*""|-?[0-9][0-9.eE+-]*|true|false)")]
    private static partial Regex Value();

    [GeneratedRegex(@"\[[A-Z][A-Za-z]*\(.*\)\]")]
    private static partial Regex Attribute();

    [GeneratedRegex(@"(Gate\.(?!Shown|First)\w+|Refuse|new Refusal|\b(Bad|Not|Outside)[A-Z]\w*|\bBad|\bTime)\(")]
    private static partial Regex Refusing();

    [GeneratedRegex("Said \\w+ = [^;]*;")]
    private static partial Regex Kept();

    [GeneratedRegex(@"tongue\.(Say|Unusable)\(")]
    private static partial Regex Telling();

    [GeneratedRegex(@"\{[0-9]\}")]
    private static partial Regex Place();
}
