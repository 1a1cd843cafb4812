using FoamRules.Testing;

namespace FoamRules.RuleSets.Tests;

/// <summary>Translations of rule sets: what is wrong with them, what they lack, and that they change words only.</summary>
public sealed class TranslationTests
{
    private const string Topic = """
        sources:
          book: { cite: A book, status: read }
        vent.a:
          must: Air leaves.
          not-met: { plan: hold }
          missing: { plan: hold }
          release: [safety officer]
          limits: { openings: { at-least: { count: 1 }, source: book } }
          says: { not-met: "{value} openings; {limit} needed" }
          not-applicable: { outside: it is outside }
          remedy: { "": Drill one., not-met: "Drill {limit}." }
          caution: Take care.
        """;

    private const string Good = """
        vent.a:
          must: El aire sale.
          says: { not-met: "{value} aberturas; hacen falta {limit}" }
          not-applicable: { outside: está afuera }
          remedy: { "": Taladrar una., not-met: "Taladrar {limit}." }
          caution: Tener cuidado.
        """;

    private const string Head = "language: es\nreviewed-by: \"\"\ntitle: Un título\n";

    /// <summary>The languages that ship, and what each still says in English: nothing. A text that comes in English first is named here until it is translated.</summary>
    public static TheoryData<string> Languages { get; } = [.. Repository.Engine.Library.Languages.Where(language => language != Translation.English)];

    [Fact]
    public void A_translation_brings_words_and_nothing_else()
    {
        var set = Read(("vent.yaml", Good), ("language.yaml", Head)).RuleSet!;
        var book = RuleBook.Build([set]);
        var spanish = book.In("es");
        Assert.Equal(("T", "Un título"), (book.Layers[0].Title, spanish.Layers[0].Title));
        Assert.Equal(("Air leaves.", "El aire sale."), (book.Requirements["vent.a"].Must, spanish.Requirements["vent.a"].Must));
        Assert.Equal(["Taladrar una.", "Taladrar {limit}."], spanish.Requirements["vent.a"].Remedies.Values);
        Assert.Equal("{value} aberturas; hacen falta {limit}", spanish.Requirements["vent.a"].Says["not-met"]);
        Assert.Same(book.Requirements["vent.a"].Limits, spanish.Requirements["vent.a"].Limits);
        Assert.Same(book.Requirements["vent.a"].NotMet, spanish.Requirements["vent.a"].NotMet);
        Assert.Same(spanish, book.In("es"));
        Assert.Equal(0, spanish.Untranslated);
    }

    [Fact]
    public void What_is_wrong_is_named_with_file_line_and_column_all_at_once()
    {
        var read = Read(
            ("vent.yaml", "vent.b: { must: Nada. }\nvent.a:\n  says: { not-mat: x }\n  remedy: { not-met: \"Taladrar {limite}.\" }\n  caution: \"{value}\"\n  mast: Nada.\n  must: [a]\n"),
            ("vnt.yaml", "vent.a: { must: Nada. }\n"),
            ("language.yaml", "language: fr\nreviewed-by: \"\"\ndecimal-mark: x\nreviewer: me\n"));
        Assert.Null(read.RuleSet);
        Assert.Equal(
            [
                "test/languages/es/language.yaml(1,11) language", "test/languages/es/language.yaml(3,15) decimal-mark", "test/languages/es/language.yaml(4,1) language.reviewer",
                "test/languages/es/vent.yaml(1,1) vent.b", "test/languages/es/vent.yaml(3,11) vent.a.says.not-mat", "test/languages/es/vent.yaml(4,13) vent.a.remedy.not-met",
                "test/languages/es/vent.yaml(5,3) vent.a.caution", "test/languages/es/vent.yaml(6,3) vent.a.mast", "test/languages/es/vent.yaml(7,9) vent.a.must",
                "test/languages/es/vnt.yaml(1,1) vent.a",
            ],
            read.Violations.Select(violation => $"{violation.File}({violation.Line},{violation.Column}) {violation.Path}").Order(StringComparer.Ordinal));
        Assert.Contains(read.Violations, violation => violation is { Found: "the placeholders {limite}", Allowed: "{limit}, as in English" });
        Assert.Contains(read.Violations, violation => violation is { Path: "vent.b", Remedy: "did you mean vent.a?" });
    }

    [Fact]
    public void A_placeholder_stands_as_often_as_in_English()
    {
        var read = Read(("vent.yaml", "vent.a: { says: { not-met: \"{value} {value} {limit}\" } }\n"), ("language.yaml", Head));
        Assert.Equal("the placeholders {limit} {value} {value}", Assert.Single(read.Violations).Found);
    }

    [Theory]
    [InlineData("en")]
    [InlineData("Spanish!")]
    public void A_folder_is_named_by_a_language_other_than_English(string folder)
    {
        var files = new RuleSetFiles("test", [new RuleSetFile($"languages/{folder}/language.yaml", $"language: {folder}\nreviewed-by: \"\"\n"), .. Base]);
        Assert.Equal("language", Assert.Single(RuleSetReader.Read(files).Violations).Path);
    }

    [Fact]
    public void A_language_without_its_own_file_is_refused() =>
        Assert.Equal("test/languages/es/language.yaml", Assert.Single(Read(("vent.yaml", Good)).Violations).File);

    [Fact]
    public void What_a_translation_lacks_stands_in_English_and_is_named()
    {
        var set = Read(("vent.yaml", "vent.a:\n  must: El aire sale.\n  caution: \"\"\n"), ("language.yaml", Head)).RuleSet!;
        var spanish = RuleBook.Build([set]).In("es");
        Assert.Equal(("El aire sale.", "Take care."), (spanish.Requirements["vent.a"].Must, spanish.Requirements["vent.a"].Caution));
        var gaps = set.Translations["es"].Gaps;
        Assert.Equal(["vent.a.caution", "vent.a.not-applicable.outside", "vent.a.remedy", "vent.a.remedy.not-met", "vent.a.says.not-met"], gaps.Select(gap => gap.Path));
        Assert.All(gaps, gap => Assert.Equal(("test/languages/es/vent.yaml", 1, 1), (gap.File, gap.Line, gap.Column)));
        Assert.Equal(5, spanish.Untranslated);
    }

    [Fact]
    public void A_layer_without_a_folder_for_the_language_stands_in_English_and_counts()
    {
        var set = RuleSetReader.Read(new RuleSetFiles("test", [.. Base])).RuleSet!;
        Assert.Equal(RuleSetTexts.Of(set).Count, RuleBook.Build([set]).In("es").Untranslated);
    }

    [Fact]
    public void Translations_count_in_the_digest()
    {
        using var folder = new TemporaryFolder();
        folder.Write("test/rule-set.yaml", "title: T\n");
        var before = RuleSetFiles.InFolder(Path.Combine(folder.Path, "test"));
        folder.Write("test/languages/es/language.yaml", Head);
        var after = RuleSetFiles.InFolder(Path.Combine(folder.Path, "test"));
        Assert.Equal(["languages/es/language.yaml", "rule-set.yaml"], after.Files.Select(file => file.Name));
        Assert.NotEqual(before.Digest, after.Digest);
    }

    [Theory]
    [MemberData(nameof(Languages))]
    public void A_language_that_ships_has_every_text_of_every_rule_set(string language)
    {
        var library = Repository.Engine.Library;
        var gaps = library.RuleSets.Values.SelectMany(set => set.Translations.TryGetValue(language, out var translation)
            ? translation.Gaps.Select(gap => $"{set.Id}: {gap.Path}")
            : RuleSetTexts.Of(set).Keys.Select(place => $"{set.Id}: {place}")).ToList();
        Assert.Empty(gaps);
    }

    [Fact]
    public void The_price_list_and_the_questions_are_translated_too()
    {
        RuleSetFile[] english =
        [
            .. Base, new RuleSetFile("price.yaml", "fans: { what: fans, asked-by: vent.a, quantity: fan-flow, unit: fans, how: { planned: \"{needed} would do\", open: as given } }\nholes: { what: holes, asked-by: vent.a, quantity: once, how: one }\n"),
            new RuleSetFile("questions.yaml", "work.spray.passes: How thick is each pass of {of}?\nwork: Which work?\n"),
        ];
        var set = Spanish(english, ("price.yaml", "fans: { what: ventiladores, how: { planned: \"bastaría {needed}\" } }\nholes: { how: uno }\n"), ("questions.yaml", "work.spray.passes: \"¿Qué tan gruesa es cada pasada de {of}?\"\n")).RuleSet!;
        var spanish = RuleBook.Build([set]).In("es");
        Assert.Equal([("ventiladores", "bastaría {needed}", "vent.a", "fans"), ("holes", "uno", "vent.a", "")], spanish.Prices.Select(line => (line.What, line.How.Last().Value, line.AskedBy, line.Unit)));
        Assert.Equal(("Which work?", "¿Qué tan gruesa es cada pasada de {of}?"), (spanish.Questions["work"], spanish.Questions["work.spray.passes"]));
        Assert.Equal(["price.fans.how.open", "price.holes.what", "questions.work"], set.Translations["es"].Gaps.Select(gap => gap.Path).Where(path => !path.StartsWith("vent.", StringComparison.Ordinal)));

        var wrong = Spanish(english, ("price.yaml", "fens: { what: a }\nfans: { what: a, unit: b, how: { planned: nada } }\n"), ("questions.yaml", "work.spray.pass: a\nwork: \"{of}\"\n"));
        Assert.Equal(
            ["price.yaml(1,1) price.fens", "price.yaml(2,18) price.fans.unit", "price.yaml(2,34) price.fans.how.planned", "questions.yaml(1,1) questions.work.spray.pass", "questions.yaml(2,1) questions.work"],
            wrong.Violations.Select(violation => $"{Path.GetFileName(violation.File)}({violation.Line},{violation.Column}) {violation.Path}").Order(StringComparer.Ordinal));

        static RuleSetRead Spanish(RuleSetFile[] english, params (string Name, string Text)[] files) =>
            RuleSetReader.Read(new RuleSetFiles("test", [.. english, new RuleSetFile("languages/es/language.yaml", Head), .. files.Select(file => new RuleSetFile($"languages/es/{file.Name}", file.Text))]));
    }

    private static RuleSetFile[] Base =>
        [new RuleSetFile("rule-set.yaml", "title: T\nversion: 1.0.0\nlevel: general-practice\n"), new RuleSetFile("vent.yaml", Topic)];

    private static RuleSetRead Read(params (string Name, string Text)[] spanish) =>
        RuleSetReader.Read(new RuleSetFiles("test", [.. spanish.Select(file => new RuleSetFile($"languages/es/{file.Name}", file.Text)), .. Base]));
}
