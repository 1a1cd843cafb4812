using System.Globalization;
using System.Text;
using FoamRules.Testing;
using FoamRules.Text;

namespace FoamRules.RuleSets.Tests;

/// <summary>Which rule sets a plan gets: the questions of shared/choices/rule-sets.yaml against its invented library.</summary>
public sealed class ChoosingTests : IDisposable
{
    private static readonly MapNode File = (MapNode)DataText.Read(System.IO.File.ReadAllText(Repository.PathOf("shared", "choices", "rule-sets.yaml")), "rule-sets.yaml").Root!;
    private readonly TemporaryFolder _folder = new();
    private readonly RuleLibrary _library;

    public ChoosingTests()
    {
        foreach (var set in ((MapNode)File["library"]!).Entries)
        {
            _folder.Write($"{set.Name}/rule-set.yaml", $"title: {set.Name}\nversion: 1.0.0\n{Write((MapNode)set.Value)}");
        }

        _library = RuleLibrary.Load(_folder.Path, out var violations)!;
        Assert.True(_library is not null, string.Join(Environment.NewLine, violations));
    }

    public static TheoryData<string> Questions { get; } = [.. ((ListNode)File["questions"]!).Items.Select(item => Text(item, "says")!)];

    public void Dispose() => _folder.Dispose();

    [Theory]
    [MemberData(nameof(Questions))]
    public void A_question_is_answered_as_the_table_says(string says)
    {
        var one = ((ListNode)File["questions"]!).Items.Single(item => Text(item, "says") == says);
        var named = Texts(one, "named");
        var date = Text(one, "date") is { } text ? DateOnly.Parse(text, CultureInfo.InvariantCulture) : (DateOnly?)null;
        // The order in which names are given changes nothing.
        foreach (var names in new[] { named, [.. named.Reverse()] })
        {
            var choice = _library.Choose(new RuleSetQuestion(Text(one, "country"), Text(one, "region"), date, names));
            Assert.Equal(Texts(one, "layers"), choice.Layers.Select(layer => layer.Id));
            AssertSaid(Texts(one, "notes"), [.. choice.Notes.Select(note => note.English)]);
            var refusals = choice.Violations.Select(violation => violation.ToString()).ToList();
            Assert.Equal(Texts(one, "refused").Count > 0, refusals.Count > 0);
            Assert.All(Texts(one, "refused"), words => Assert.Contains(refusals, refusal => refusal.Contains(words, StringComparison.Ordinal)));
            Assert.All(choice.Violations, violation => Assert.True(violation.Path == "rule_sets" && violation.Allowed.Length > 0 && violation.Remedy.Length > 0));
        }
    }

    private static void AssertSaid(IReadOnlyList<string> expected, IReadOnlyList<string> notes)
    {
        Assert.True(expected.Count == notes.Count, string.Join(Environment.NewLine, notes));
        Assert.All(expected, words => Assert.Contains(notes, note => note.Contains(words, StringComparison.Ordinal)));
    }

    private static string? Text(DataNode node, string name) => ((MapNode)node)[name] is ScalarNode { Text: { } text } ? text : null;

    private static IReadOnlyList<string> Texts(DataNode node, string name) =>
        ((MapNode)node)[name] is ListNode list ? [.. list.Items.Select(item => ((ScalarNode)item).Text!)] : [];

    private static string Write(MapNode head)
    {
        var text = new StringBuilder();
        foreach (var entry in head.Entries)
        {
            text.Append(CultureInfo.InvariantCulture, $"{entry.Name}: {Flow(entry.Value)}\n");
        }

        return text.ToString();
    }

    private static string Flow(DataNode node) => node switch
    {
        MapNode map => $"{{ {string.Join(", ", map.Entries.Select(entry => $"{entry.Name}: {Flow(entry.Value)}"))} }}",
        ListNode list => $"[{string.Join(", ", list.Items.Select(Flow))}]",
        ScalarNode scalar => scalar.Text!,
        _ => throw new ArgumentException("a node of a kind that is not known", nameof(node)),
    };
}
