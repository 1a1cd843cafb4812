using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Remedies;
using FoamRules.Rules.Engine;
using FoamRules.Testing;

namespace FoamRules.Readings.Tests;

/// <summary>Looks through all readings of the reports on the example plans and on cases for words that no translation can reach.</summary>
public sealed partial class UntranslatedTests
{
    private static readonly CheckEngine Engine = new(MarkedLanguage.Library());

    private static readonly ReadingWords Words = new(Engine.Library.Everything().In(MarkedLanguage.Tag).Texts);

    // Names that stand as they are in every language: of sources, rule sets, requirements, and of the contract's choices in changes of a plan.
    private static readonly Regex Names = AnyOf(Engine.Library.RuleSets.Values.SelectMany(set => set.Sources.Values.Select(source => source.Citation).Append(set.Id)).Concat(Engine.Library.Everything().Requirements.Keys).Distinct());

    private static readonly HashSet<string> Choices = [.. typeof(Plan).Assembly.GetTypes().Where(type => type.IsEnum).SelectMany(Enum.GetNames).Select(name => PathStep.FieldName(name).Replace('_', '-'))];

    // Units, functions, standards, and fields that stand at the head of a plan.
    private static readonly HashSet<string> NoWords =
    [
        "mm", "cm", "in", "ft", "kg", "lb", "min", "psi", "kPa", "Pa", "ppm", "ppb", "dBA", "kJ", "mol", "kV", "mph", "gal", "Btu", "mg",
        "log", "ln", "exp", "sinh", "cosh", "tanh", "Sxx", "nt", "kt", "hPa", "max",
        "ASTM", "CAN", "ULC-S", .. Contracts.V1.Plan.Descriptor.Fields.InDeclarationOrder().Select(field => field.Name),
    ];

    [Fact]
    public void Each_word_of_each_reading_can_be_translated()
    {
        var found = new SortedDictionary<string, string>(StringComparer.Ordinal);
        // Most lines stand in many reports, and most say nothing that a translation does not reach, whatever the plan names.
        var clean = new Dictionary<string, bool>(StringComparer.Ordinal);
        var reports = 0;
        foreach (var (name, text) in Plans())
        {
            var read = PlanReader.ReadText(text, null, new ReadOptions(DateTimeOffset.UnixEpoch));
            var options = new CheckOptions(read.Digest, Language: MarkedLanguage.Tag);
            var report = Engine.Check(read.Plan!, options, TestContext.Current.CancellationToken).Report!;
            if (name.StartsWith("plan ", StringComparison.Ordinal))
            {
                report = new RemedyFinder(Engine).Find(read, report, options, TestContext.Current.CancellationToken);
            }

            reports++;
            var given = new Lazy<Regex>(() => AnyOf(Given(JsonNode.Parse(TreeJson(text))!).Distinct()));
            foreach (var line in Enum.GetValues<Reader>().SelectMany(reader => LinesOf(ReportReading.Of(report, reader, Words, all: true))).Distinct())
            {
                var outside = MarkedLanguage.Outside(line);
                if (!clean.TryGetValue(outside, out var isClean))
                {
                    clean[outside] = isClean = Left(outside, null).Length == 0;
                }

                if (!isClean && Left(outside, given.Value) is { Length: > 0 } left)
                {
                    found.TryAdd(left, $"{name}: {line}");
                }
            }
        }

        Assert.InRange(reports, 300, int.MaxValue);
        Assert.True(found.Count == 0, string.Join(Environment.NewLine, found.Select(one => $"{one.Key}  <-  {one.Value}")));
    }

    private static IEnumerable<(string Name, string Text)> Plans() =>
        Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(file => ($"plan {Path.GetFileName(file)}", File.ReadAllText(file)))
            .Concat(CaseFiles.Read().SelectMany(OfFile).Select(one => (one.ToString(), one.PlanJson)));

    // Of each requirement a case for each way in which it can be broken or not known; all of them where they are asked for.
    private static IEnumerable<Case> OfFile(CaseFile file) => CaseFile.Every
        ? file.Cases
        : file.Cases.Where(one => one.Outcome is Outcome.NotMet or Outcome.Undetermined).GroupBy(one => one.Outcome).Select(same => same.First());

    private static string Left(string outside, Regex? given)
    {
        if (!Word().IsMatch(outside))
        {
            return "";
        }

        var named = Names.Replace(outside, " ");
        var left = Paths().Replace(given?.Replace(named, " ") ?? named, " ");
        return string.Join(" ", Word().Matches(left).Select(match => match.Value).Where(word => !NoWords.Contains(word)));
    }

    private static Regex AnyOf(IEnumerable<string> names) =>
        new($"(?<![A-Za-z0-9])(?:{string.Join('|', names.OrderByDescending(name => name.Length).Select(Regex.Escape))})(?![A-Za-z0-9])");

    // What the plan names: everything that it says in its own words, and no choice of the contract.
    private static IEnumerable<string> Given(JsonNode? node) => node switch
    {
        JsonObject map => map.SelectMany(pair => pair.Value is JsonValue value && value.GetValueKind() == JsonValueKind.String && Choices.Contains(value.GetValue<string>()) && pair.Key is not ("id" or "name" or "area" or "product" or "person") ? [] : Given(pair.Value)),
        JsonArray list => list.SelectMany(Given),
        JsonValue value when value.GetValueKind() == JsonValueKind.String && value.GetValue<string>() is { Length: > 1 } text => [text],
        _ => [],
    };

    private static string TreeJson(string text) => FoamRules.Text.DataText.Read(text, null).Root is { } root ? TreeEdit.ToJson(root)!.ToJsonString() : "{}";

    private static IEnumerable<string> LinesOf(ReportView view) =>
    [
        view.Word, view.Title, .. view.Head,
        .. view.Sections.SelectMany(section => section.Entries.SelectMany(entry => entry.Details.SelectMany(detail => new[] { detail.Label, detail.Text }).Prepend(entry.Text)).Prepend(section.Title)),
    ];

    [GeneratedRegex(@"(?<=[\]a-z_] = )[a-z0-9-]+(?=;|$)|[a-z0-9_]+(\[[^\]]*\])?(\.[a-z0-9_-]+(\[[^\]]*\])?)*(?<=[\]_.][^ ]*)|SHA-256 [0-9a-f]+")]
    private static partial Regex Paths();

    [GeneratedRegex("[A-Za-z][A-Za-z'-]+")]
    private static partial Regex Word();
}
