using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Rules.Tests;

/// <summary>A report in another language says the same in other words.</summary>
public sealed partial class LanguageTests
{
    private const char Open = MarkedLanguage.Open, Close = MarkedLanguage.Close;

    private static readonly Lazy<CheckEngine> MarkedEngine = new(() => new CheckEngine(MarkedLanguage.Library()));

    private static readonly string[] Plans = ["cold-store-dock", "cold-store-dock-broken", "cold-store-dock-quote"];

    // Names of standards, of sides of the gear and of rule sets, and the numbers of a range: the same everywhere.
    private static readonly string[] NoWords = ["test", "named", "side", "by", "found", "metric", "country", "level", "low", "high"];

    public static TheoryData<string> Languages { get; } = [.. Repository.Engine.Library.Languages];

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_changes_the_sentences_and_nothing_else(string language)
    {
        foreach (var plan in Plans)
        {
            var report = Check(plan, language);
            Assert.Equal(language, report.Language);
            Assert.Equal(WithoutSentences(Check(plan, null)), WithoutSentences(report));
        }
    }

    [Fact]
    public void Whatever_a_judge_puts_into_a_sentence_has_a_key_or_stands_in_the_plan()
    {
        var wrong = new SortedSet<string>(StringComparer.Ordinal);
        var seen = 0;
        foreach (var one in CaseFiles.Read().SelectMany(file => file.Cases))
        {
            var plan = PlanReader.ReadText(one.PlanJson, null, new ReadOptions(default)).Plan!;
            var network = Repository.Engine.NetworkFor(Repository.Engine.Library.Choose(new RuleSetQuestion(plan.Jurisdiction?.Country, plan.Jurisdiction?.Region, plan.WorkDate, plan.RuleSets)));
            // Each requirement speaks in its own cases.
            var requirement = network.Requirements.Single(requirement => requirement.Spec.Id == one.Requirement);
            foreach (var assessment in new JobFacts(plan).All.Where(requirement.Covers).Select(requirement.Assess).Where(assessment => assessment.Verdict is not null))
            {
                var spec = requirement.Spec;
                foreach (var (word, value) in assessment.Verdict!.Words.Where(pair => pair.Value.Text is not null && !NoWords.Contains(pair.Key)))
                {
                    seen++;
                    wrong.UnionWith(Unkeyed(value, spec, network.Book, one.PlanJson).Select(text => $"{spec.Id} {{{word}}}: {text}"));
                }
            }
        }

        Assert.True(seen > 100, "no words were seen");
        Assert.True(wrong.Count == 0, string.Join(Environment.NewLine, wrong));
    }

    [Fact]
    public void Each_choice_of_the_contract_that_a_judge_names_has_a_key()
    {
        var texts = Repository.Engine.Library.Everything().Texts;
        Type[] named =
        [
            typeof(AccessKind),
            typeof(CrewTask), typeof(RespiratorType), typeof(AirMode), typeof(Facepiece), typeof(Substance), typeof(Change), typeof(FoamKind), typeof(FoamUse),
            typeof(Substrate), typeof(FlueKind), typeof(ReadingKind), typeof(FallProtection), typeof(GloveMaterial), typeof(EyeProtection),
        ];
        var lacking = named.SelectMany(type => Enum.GetNames(type).Select(name => Spoken.KeyOf(PathStep.FieldName(name).Replace('_', ' ')))).Where(key => !texts.ContainsKey(key));
        Assert.Empty(lacking);
    }

    [Fact]
    public void Every_word_of_a_list_in_a_rule_set_has_a_key()
    {
        var book = Repository.Engine.Library.Everything();
        // Editions of standards and classes of construction are names.
        string[] names = ["ASTM E84", "CAN/ULC-S102", "V"];
        var words = book.Requirements.Values.SelectMany(spec => spec.Limits.Values).SelectMany(limit => limit.Below.Append(limit)).SelectMany(limit => limit.Words).Except(names);
        Assert.All(words.Select(Spoken.KeyOf), key => Assert.True(book.Texts.ContainsKey(key), key));
    }

    [Fact]
    public void No_sentence_of_a_report_comes_from_anywhere_but_the_translation()
    {
        var engine = MarkedEngine.Value;
        foreach (var plan in Plans)
        {
            var report = Check(plan, "qps", engine);
            var sentences = report.Findings.SelectMany(finding => new[] { finding.MustHold, finding.Found, finding.Remedy, finding.Caution, finding.CappedBecause, finding.Hazard })
                .Concat(report.Hazards.SelectMany(hazard => new[] { hazard.Name, hazard.Because }))
                .Concat(report.Judgements.Select(judgement => judgement.Reason))
                .Concat(report.Numbers.SelectMany(number => number.Note.Split("; ").Prepend(number.Name)))
                .Concat(report.Schedule.SelectMany(entry => new[] { entry.What, entry.LocalTime }))
                .Concat(report.PriceLines.SelectMany(line => new[] { line.What, line.How })).Concat(report.Unknowns.Select(unknown => unknown.Question))
                .Concat(report.Cautions).Concat(report.LanguageNotes).Concat(report.RuleSetNotes).Concat(report.RuleSets.Select(set => set.Title)).Append(report.Summary)
                .Where(sentence => sentence.Length > 0).ToList();
            Assert.NotEmpty(sentences);
            Assert.All(sentences, sentence => Assert.True(sentence.Contains(Open) || sentence.Contains(Close), sentence));
            Assert.Equal(0, report.LanguageNotes.Count(note => note.Contains("not translated yet", StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void No_word_in_a_picture_comes_from_anywhere_but_the_translation()
    {
        var pictures = MarkedEngine.Value.Check(PlanOf("cold-store-dock"), new CheckOptions(Language: "qps", Pictures: true), TestContext.Current.CancellationToken).Report!.Pictures;
        var words = pictures.SelectMany(picture => XElement.Parse(picture.Svg).Descendants()).Where(element => element.Name.LocalName is "text" or "title" or "desc").Select(element => element.Value.Trim())
            .Where(text => text.Any(char.IsAsciiLetter) && !double.TryParse(text, System.Globalization.CultureInfo.InvariantCulture, out _)).Except(["°F"]).ToList();
        Assert.True(pictures.Select(picture => picture.Name).Distinct().Count() >= 3, "three kinds of pictures were looked at");
        Assert.NotEmpty(words);
        Assert.All(words, text => Assert.True(text.Contains(Open), text));
    }

    [Fact]
    public void Every_worked_step_of_a_report_has_a_name_with_a_key()
    {
        var texts = Repository.Engine.Library.Everything().Texts;
        var reports = Plans.Select(plan => Check(plan, null)).ToList();
        var names = reports.SelectMany(report => report.Findings.SelectMany(finding => finding.Steps).Concat(report.Numbers.SelectMany(number => number.Steps)).Concat(report.PriceLines.SelectMany(line => line.Steps)))
            .Select(step => step.Name).Distinct().ToList();
        Assert.NotEmpty(names);
        Assert.DoesNotContain(names, name => !texts.ContainsKey(Phrase.KeyOf("step", Regex.Replace(name, " [0-9]+$", ""))));
    }

    [Theory]
    [InlineData("en", null, "1.5 mm")]
    [InlineData("qps", "ES", "1,5 mm")]
    [InlineData("qps", "US", "1.5 mm")]
    [InlineData("qps", null, "1,5 mm")]
    public void Numbers_are_written_as_the_language_writes_them_in_the_readers_country(string language, string? country, string shown)
    {
        var wording = new Wording(MarkedEngine.Value.Library.Everything().In(language), DisplayUnits.Si, country);
        Assert.Equal(shown, wording.Show(Length.FromMillimeters(1.5)));
        var days = wording.Show(Duration.FromDays(4.5));
        Assert.Equal(language == "en" ? "4.5 days" : $"4{wording.Style.DecimalMark}5 {Open}days{Close}", days);
        Assert.Equal("2026-04-10", wording.Show(Measure.OfDate(new DateOnly(2026, 4, 10))));
    }

    [Fact]
    public void The_site_s_clock_names_days_and_months_in_the_language()
    {
        var at = new DateTimeOffset(2026, 4, 10, 13, 5, 0, TimeSpan.Zero);
        var book = MarkedEngine.Value.Library.Everything();
        Assert.Equal("Fri 10 Apr 2026 09:05", new Wording(book, DisplayUnits.Us).Show(at, "America/New_York"));
        Assert.Equal("Fri 10 Apr 2026 13:05 UTC", new Wording(book, DisplayUnits.Us).Show(at, null));
        Assert.Equal("⟦Fri⟧ 10 ⟦Apr⟧ 2026 09:05", new Wording(book.In("qps"), DisplayUnits.Us).Show(at, "America/New_York"));
    }

    [Theory]
    [InlineData("QPS", "qps")]
    [InlineData("qps-MX", "qps")]
    [InlineData("en-GB", "en")]
    [InlineData("", "en")]
    public void A_tag_is_matched_with_its_parts_taken_off(string tag, string language) =>
        Assert.Equal(language, Check("cold-store-dock", tag, MarkedEngine.Value).Language);

    [Fact]
    public void An_unknown_language_is_refused_with_those_that_there_are()
    {
        var result = Repository.Engine.Check(PlanOf("cold-store-dock"), new CheckOptions(Language: "xx"));
        Assert.Null(result.Report);
        Assert.Equal(("language", "`xx`", string.Join(", ", Repository.Engine.Library.Languages)), (result.Violations[0].Path, result.Violations[0].Found, result.Violations[0].Allowed));
    }

    [Fact]
    public void A_translation_that_nobody_has_reviewed_says_so()
    {
        Assert.Empty(Check("cold-store-dock", null).LanguageNotes);
        Assert.Contains(Check("cold-store-dock", "qps", MarkedEngine.Value).LanguageNotes, note => note.Contains("No speaker of the trade", StringComparison.Ordinal));
        Assert.DoesNotContain(Check("cold-store-dock", "qps", new CheckEngine(MarkedLanguage.Library("Somebody"))).LanguageNotes, note => note.Contains("No speaker of the trade", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("fr-FR")]
    [InlineData("tr-TR")]
    [InlineData("ar-SA")]
    public void The_machine_s_culture_changes_nothing(string culture)
    {
        var plain = ReportMapper.ToMessage(Check("cold-store-dock-broken", null));
        var before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo(culture);
            Assert.Equal(plain, ReportMapper.ToMessage(Check("cold-store-dock-broken", null)));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static IEnumerable<string> Unkeyed(Measure value, RequirementSpec spec, RuleBook book, string plan)
    {
        if (value.Phrase is not { } phrase)
        {
            // A name as the plan gives it, a path or a date in it, or a number of a range.
            return value.Text is { Length: > 0 } text && !char.IsDigit(text[0]) && !plan.Contains(JsonEncodedText.Encode(text).ToString(), StringComparison.Ordinal) && !text.Contains('[', StringComparison.Ordinal) ? [text] : [];
        }

        var parts = phrase.Parts.Concat(phrase.Words.Values).SelectMany(part => Unkeyed(part, spec, book, plan));
        return phrase.Key is "," or ";" || book.Texts.ContainsKey(phrase.Key) || spec.Says.ContainsKey(phrase.Key) ? parts : parts.Prepend($"no key {phrase.Key}");
    }

    private static Plan PlanOf(string plan) =>
        PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", $"{plan}.yaml")), plan, new ReadOptions(DateTimeOffset.UnixEpoch)).Plan!;

    private static Report Check(string plan, string? language, CheckEngine? engine = null) =>
        (engine ?? Repository.Engine).Check(PlanOf(plan), new CheckOptions(Language: language), TestContext.Current.CancellationToken).Report!;

    // What a program reads. The sentences, their language and the digests of nothing else are taken out.
    private static Contract.Report WithoutSentences(Report report)
    {
        var message = ReportMapper.ToMessage(report);
        (message.Summary, message.Language, message.DecimalMark) = ("", "", "");
        message.LanguageNotes.Clear();
        message.Cautions.Clear();
        message.AskAgainWhen.Clear();
        message.RuleSetNotes.Clear();
        message.Relaxations.Clear();
        foreach (var set in message.RuleSets)
        {
            set.Title = "";
        }

        foreach (var finding in message.Findings)
        {
            (finding.MustHold, finding.Found, finding.Remedy, finding.Caution, finding.CappedBecause, finding.Hazard) = ("", "", "", "", "", "");
            foreach (var source in finding.Sources.Where(source => source.Layer is "data sheet" or "plan" or "the computed purge"))
            {
                source.Citation = "";
            }
        }

        foreach (var judgement in message.Judgements)
        {
            judgement.Reason = "";
        }

        foreach (var hazard in message.Hazards)
        {
            (hazard.Name, hazard.Because) = ("", "");
        }

        foreach (var line in message.PriceLines)
        {
            (line.What, line.How) = ("", "");
        }

        foreach (var unknown in message.Unknowns)
        {
            unknown.Question = "";
        }

        foreach (var number in message.Numbers)
        {
            (number.Name, number.Note) = ("", "");
        }

        foreach (var entry in message.Schedule)
        {
            (entry.What, entry.LocalTime) = ("", "");
        }

        return message;
    }
}
