using FoamRules.Model;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Readings.Tests;

/// <summary>What readings call subjects, stages, severities, sources and roles, in each language.</summary>
public sealed class NamesTests
{
    private static readonly RuleBook Book = Repository.Engine.Library.Everything();

    public static TheoryData<string> Languages { get; } = [.. Repository.Engine.Library.Languages];

    [Theory]
    [MemberData(nameof(Languages))]
    public void Each_name_has_a_key_and_English_says_what_it_says_without_one(string language)
    {
        var (with, without) = (new ReadingWords(Book.In(language).Texts), new ReadingWords(new Dictionary<string, string>()));
        List<(string Said, string English)> names =
        [
            .. Enum.GetValues<Stage>().Select(stage => (with.Of(stage), without.Of(stage))),
            .. Enum.GetValues<Severity>().Select(severity => (with.Of(severity), without.Of(severity))),
            .. Enum.GetValues<SourceStatus>().Select(status => (with.Of(status), without.Of(status))),
            .. Enum.GetValues<SubjectKind>().Select(kind => new Subject(kind, "x")).Select(subject => (with.Of(subject), without.Of(subject))),
            .. Book.Layers.Where(layer => layer.Level < Level.Company).SelectMany(layer => layer.Requirements.Values).SelectMany(entry => entry.Release ?? []).Distinct().Select(role => (with.Named("role", role), role)),
        ];
        if (language == Translation.English)
        {
            Assert.All(names, name => Assert.Equal(name.English, name.Said));
        }

        var keys = Enum.GetValues<Stage>().Select(stage => Phrase.KeyOf("stage", ReportNames.Of(stage)))
            .Concat(Enum.GetValues<Severity>().Select(severity => Phrase.KeyOf("severity", ReportNames.Of(severity))))
            .Concat(Enum.GetValues<SourceStatus>().Select(status => Phrase.KeyOf("source", ReportNames.Of(status))))
            .Concat(Enum.GetValues<SubjectKind>().Where(kind => kind != SubjectKind.Work).Select(kind => $"subject-{kind.ToString().ToLowerInvariant()}"))
            .Concat(Book.Layers.Where(layer => layer.Level < Level.Company).SelectMany(layer => layer.Requirements.Values).SelectMany(entry => entry.Release ?? []).Select(role => Phrase.KeyOf("role", role)));
        Assert.DoesNotContain(keys, key => !Book.Texts.ContainsKey(key));
    }

    [Fact]
    public void Each_limit_that_is_a_count_says_what_is_counted()
    {
        var counts = Repository.Engine.Library.RuleSets.Values.SelectMany(set => set.Requirements.Values).SelectMany(entry => entry.Limits).Where(limit => limit.Value.Value.Count is not null).Select(limit => limit.Key.Split('.')[^1]).ToHashSet();
        Assert.Contains("months", counts);
        Assert.All(counts, name => Assert.Contains(Phrase.KeyOf("counted", name), Book.Texts.Keys));
    }

    [Fact]
    public void A_role_that_a_company_has_named_stays_as_it_is() =>
        Assert.Equal("foam boss", new ReadingWords(Book.In("es").Texts).Named("role", "foam boss"));
}
