using System.Globalization;
using System.Text;
using FoamRules.Model;
using FoamRules.Testing;

namespace FoamRules.RuleSets.Tests;

/// <summary>docs/requirements, a page a topic and an index, all from the rule sets.</summary>
internal sealed class RequirementPages
{
    private const string Written = "Written from the rule sets by the tests; a change belongs there. It defers to the product's data sheet, local codes, the authority having jurisdiction and licensed practice.\n";

    private readonly RuleBook _all;

    public RequirementPages(RuleLibrary library)
    {
        // Every rule set, whether plans get it or not, the lowest first.
        _all = RuleBook.Build(library.RuleSets.Values);
    }

    /// <summary>The pages by file name.</summary>
    public IReadOnlyDictionary<string, string> Write()
    {
        var topics = _all.Requirements.Values.GroupBy(spec => spec.Topic).ToList();
        var pages = topics.ToDictionary(topic => $"{topic.Key}.md", topic => Topic(topic.Key, [.. topic]), StringComparer.Ordinal);
        pages["README.md"] = Index(topics);
        pages["parameters.md"] = Parameters();
        return pages;
    }

    private string Parameters()
    {
        var page = new StringBuilder($"# Values that several requirements share\n\n{Written}\n[All topics](README.md)\n");
        Limits(page, _all.Layers.SelectMany(layer => layer.Parameters.Values));
        return page.ToString();
    }

    private string Index(List<IGrouping<string, RequirementSpec>> topics)
    {
        var page = new StringBuilder("# Requirements\n\n").Append(Written).Append('\n');
        page.Append(CultureInfo.InvariantCulture, $"{_all.Requirements.Count} requirements in {topics.Count} topics.\n");
        foreach (var topic in topics)
        {
            page.Append(CultureInfo.InvariantCulture, $"\n## [{topic.Key}]({topic.Key}.md)\n\n");
            foreach (var spec in topic)
            {
                page.Append(CultureInfo.InvariantCulture, $"- [{spec.Id}]({topic.Key}.md#{Anchor(spec.Id)}): {spec.Must}\n");
            }
        }

        page.Append("\nThe values that several of them share stand under [parameters](parameters.md).\n");
        page.Append("\n## Rule sets\n\n| rule set | version | status | level | stands on | what it is |\n|---|---|---|---|---|---|\n");
        foreach (var set in _all.Layers)
        {
            page.Append(CultureInfo.InvariantCulture, $"| {set.Id} | {set.Version} | {RuleSetWords.Of(set.Head.Status)} | {RuleSetWords.Of(set.Level)} | {(set.Head.StandsOn.Any() ? string.Join(", ", set.Head.StandsOn) : "–")} | {Cell(set.Title)} |\n");
        }

        return page.ToString();
    }

    private string Topic(string topic, IReadOnlyList<RequirementSpec> requirements)
    {
        var page = new StringBuilder($"# Requirements: {topic}\n\n{Written}\n[All topics](README.md)\n");
        foreach (var spec in requirements)
        {
            Requirement(page, spec);
        }

        return page.ToString();
    }

    private void Requirement(StringBuilder page, RequirementSpec spec)
    {
        var stated = _all.Layers.Where(layer => layer.Requirements.ContainsKey(spec.Id)).Select(layer => (layer.Id, Entry: layer.Requirements[spec.Id])).ToList();
        page.Append(CultureInfo.InvariantCulture, $"\n## {spec.Id}\n\n**{spec.Must}**\n");
        Severities(page, stated);
        if (spec.Declared is { } declared)
        {
            page.Append(CultureInfo.InvariantCulture, $"\nJudged on each {RuleSetWords.Of(declared.Bearer)}");
            page.Append(declared.Applies is { } applies ? $", where `{applies.Text}`" : "").Append(CultureInfo.InvariantCulture, $": `{declared.Met.Text}`\n");
        }

        Limits(page, stated.SelectMany(one => one.Entry.Limits.Values));
        Sources(page, stated);
        page.Append(spec.Example.Length > 0 ? $"\nExample: {spec.Example}\n" : "");
        Remedies(page, spec);
        page.Append(spec.Caution.Length > 0 ? $"\nCaution: {spec.Caution}\n" : "");
        page.Append(spec.Release.Length > 0 ? $"\nA hold may be released by: {string.Join(", ", spec.Release)}.\n" : "\nNo one may release a hold; only a changed fact cures it.\n");
        page.Append(spec.ImminentSetBy is { } role ? $"\nFlagged as imminent danger by the {role}, so that weak sources do not lower a stop.\n" : "");
    }

    // A row for each rule set that says something of it, and one for each of its tiers.
    private static void Severities(StringBuilder page, IEnumerable<(string Id, RequirementEntry Entry)> stated)
    {
        page.Append("\n| severity | rule set | quote | plan | pre-start | close-out |\n|---|---|---|---|---|---|\n");
        foreach (var (id, entry) in stated)
        {
            Row("not met", id, entry.NotMet);
            Row("not known", id, entry.Missing);
            foreach (var (name, tier) in entry.Tiers)
            {
                Row($"{name}: not met", id, tier.NotMet);
                Row($"{name}: not known", id, tier.Missing);
            }
        }

        void Row(string what, string id, Severities? severities)
        {
            if (severities is not null && severities != RuleSets.Severities.None)
            {
                page.Append(CultureInfo.InvariantCulture, $"| {what} | {id} |{string.Concat(Enum.GetValues<Stage>().Select(stage => $" {(severities.At(stage) is { } severity ? RuleSetWords.Of(severity) : "–")} |"))}\n");
            }
        }
    }

    private static void Limits(StringBuilder page, IEnumerable<Limit> limits)
    {
        // By name, and of one name the lowest layer first.
        var sorted = limits.OrderBy(limit => limit.Name, StringComparer.Ordinal).ToList();
        page.Append(sorted.Count > 0 ? "\n| limit | rule set | value | source |\n|---|---|---|---|\n" : "");
        foreach (var limit in sorted)
        {
            var relaxed = limit.RelaxedBy is { } authority ? $" (relaxed by authority of {authority})" : "";
            page.Append(CultureInfo.InvariantCulture, $"| {limit.Name} | {limit.Layer} | {Cell(InBothUnits(limit))}{Cell(relaxed)} | {Cell(Shown(limit.Source))} |\n");
        }
    }

    private static string InBothUnits(Limit limit)
    {
        var (us, si) = (LimitText.Show(limit, DisplayUnits.Us), LimitText.Show(limit, DisplayUnits.Si));
        return us == si ? us : $"{us} = {MeasureText.Show(limit.Value, DisplayUnits.Si)}";
    }

    private static void Sources(StringBuilder page, IEnumerable<(string Id, RequirementEntry Entry)> stated)
    {
        var sources = stated.SelectMany(one => one.Entry.Sources.Concat(one.Entry.Tiers.Values.SelectMany(tier => tier.Sources))).Distinct().ToList();
        if (sources.Count == 0)
        {
            return;
        }

        page.Append("\nSources:\n\n");
        foreach (var source in sources)
        {
            page.Append(CultureInfo.InvariantCulture, $"- {source.Layer}: {Shown(source)}\n");
        }
    }

    private static string Shown(Source source) => $"{source.Citation} ({RuleSetWords.Of(source.Status)})";

    private static void Remedies(StringBuilder page, RequirementSpec spec)
    {
        foreach (var (key, text) in spec.Remedies)
        {
            page.Append(CultureInfo.InvariantCulture, $"\nTo put it right{(key.Length > 0 && spec.Remedies.Count > 1 ? $" ({key})" : "")}: {text}\n");
        }
    }

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal).ReplaceLineEndings(" ");

    // As Markdown viewers make a heading's anchor: small letters and hyphens, no points.
    private static string Anchor(string id) => id.Replace(".", "", StringComparison.Ordinal);
}

/// <summary>The pages that are there are those that the rule sets give. UPDATE_GOLDENS=1 writes them anew.</summary>
public sealed class RequirementPagesTests
{
    [Fact]
    public void The_pages_say_what_the_rule_sets_say()
    {
        var folder = Repository.PathOf("docs", "requirements");
        var pages = new RequirementPages(Repository.LoadRules()).Write();
        if (Generated.IsUpdating && Directory.Exists(folder))
        {
            Directory.Delete(folder, recursive: true);
        }

        Assert.All(pages, page => Assert.Equal(page.Value, Generated.Read(Path.Combine(folder, page.Key), page.Value)));
        Assert.Equal(pages.Keys.Order(StringComparer.Ordinal), Directory.GetFiles(folder).Select(Path.GetFileName).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Each_requirement_each_limit_and_each_source_that_is_used_stands_on_a_page()
    {
        var library = Repository.LoadRules();
        var pages = new RequirementPages(library).Write();
        foreach (var entry in library.RuleSets.Values.SelectMany(set => set.Requirements.Values))
        {
            var page = pages[$"{entry.Id.Split('.')[0]}.md"];
            Assert.Contains($"\n## {entry.Id}\n", page, StringComparison.Ordinal);
            Assert.All(entry.Limits.Values, limit => Assert.Contains($"| {limit.Name} | {limit.Layer} |", page, StringComparison.Ordinal));
            Assert.All(entry.Sources.Concat(entry.Limits.Values.Select(limit => limit.Source)), source => Assert.Contains(source.Citation.Replace("|", "\\|", StringComparison.Ordinal), page, StringComparison.Ordinal));
            Assert.Contains(entry.Id, pages["README.md"], StringComparison.Ordinal);
        }
    }
}
