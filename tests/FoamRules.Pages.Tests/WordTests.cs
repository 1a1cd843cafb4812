using System.Text.RegularExpressions;
using FoamRules.Exchange;
using FoamRules.Pages.Site;
using FoamRules.Testing;

namespace FoamRules.Pages.Tests;

/// <summary>The words of the pages: the same keys and placeholders in every language, and a word for every key that a page names.</summary>
public sealed class WordTests
{
    private static readonly PageWords English = PageWords.In(PageWords.English);

    public static TheoryData<string> Languages { get; } = [.. PageWords.Languages];

    [Fact]
    public void Every_language_of_the_rule_sets_has_its_pages() => Assert.Equal(Repository.Engine.Library.Languages.Order(StringComparer.Ordinal), PageWords.Languages);

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_has_every_key_with_its_placeholders(string language)
    {
        var words = PageWords.In(language);
        Assert.Equal(language, words.Language);
        Assert.Equal(English.Texts.Keys.Order(StringComparer.Ordinal), words.Texts.Keys.Order(StringComparer.Ordinal));
        Assert.All(English.Texts, text => Assert.Equal(Placeholders(text.Value), Placeholders(words.Texts[text.Key])));
        Assert.All(words.Texts.Values, text => Assert.NotEqual("", text.Trim()));
    }

    [Fact]
    public void Every_key_that_a_page_names_has_its_words()
    {
        var named = new Regex("""(?<!Answer\.)Words\["([a-z0-9-]+)""");
        var keys = Directory.GetFiles(Repository.PathOf("src", "FoamRules.Pages"), "*.*", SearchOption.AllDirectories)
            .Where(file => !file.Contains($"{Path.DirectorySeparatorChar}obj{Path.DirectorySeparatorChar}", StringComparison.Ordinal) && Path.GetExtension(file) is ".razor" or ".cs")
            .SelectMany(file => named.Matches(File.ReadAllText(file)).Select(match => match.Groups[1].Value)).Distinct().ToList();
        Assert.NotEmpty(keys);
        Assert.All(keys, key => Assert.Contains(key, English.Texts.Keys));
    }

    [Theory]
    [InlineData("es")]
    [InlineData("fr")]
    public void Who_may_release_is_called_the_same_in_reports_on_pages_and_in_refusals(string language)
    {
        var (page, reports, refusals) = (PageWords.In(language), Repository.Engine.Library.Everything().In(language).Texts, ViolationWords.Of(language));
        Assert.All(["safety-officer", "competent-person", "engineer-of-record", "authority-having-jurisdiction", "owner"], role =>
        {
            var told = page.Texts[$"release-role-{role}"];
            Assert.Equal(told, reports[$"role-{role}"]);
            Assert.Equal(told, refusals[role.Replace('-', ' ')]);
        });
        Assert.Equal(page.Texts["reader-safety"], page.Texts["role-safety-officer"], ignoreCase: true);
        Assert.Equal(page.Texts["release-role-safety-officer"], page.Texts["role-safety-officer"], ignoreCase: true);
    }

    private static List<string> Placeholders(string text) => [.. Regex.Matches(text, @"\{[a-z-]+\}").Select(match => match.Value).Order(StringComparer.Ordinal)];
}
