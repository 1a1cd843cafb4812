using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Catalogue;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>What rule sets say, and what others would change, is told as it is judged.</summary>
public sealed class CatalogueTests
{
    private const string Base = """
        sources:
          habit: { cite: Practice, status: common-practice }
        topic.a-rule:
          must: It must.
          not-met: { plan: hold }
          missing: { plan: caution }
          release: [owner]
          caution: Take care.
          limits:
            thickness: { at-most: { inches: 2 }, source: habit }
            distance: { at-least: { feet: 25 }, source: habit }
            gloves: { any-of: [nitrile, butyl], source: habit }
          tiers: { worse: { not-met: { plan: stop } } }
        topic.b-rule:
          must: It must too.
          not-met: { plan: hold }
          missing: { plan: hold }
          release: [owner]
          sources: [habit]
          limits-of: [topic.a-rule]
        """;

    [Theory]
    [InlineData("topic.a-rule: { limits: { thickness: { at-most: { inches: 1 }, source: law } } }", "Limit thickness Tightens: at most 50.8 mm (general-practice) > at most 25.4 mm (upper)")]
    [InlineData("topic.a-rule: { limits: { thickness: { at-most: { inches: 3 }, source: law, relaxes: true, authority: the city } } }", "Limit thickness Loosens: at most 50.8 mm (general-practice) > at most 76.2 mm (upper)")]
    [InlineData("topic.a-rule: { limits: { thickness: { at-most: { inches: 2 }, or: { millimeters: 50 }, source: law } } }", "Limit thickness Changes: at most 50.8 mm (general-practice) > at most 50.8 mm (or 50 mm) (upper)")]
    [InlineData("topic.a-rule: { limits: { gloves: { any-of: [nitrile], source: law } } }", "Limit gloves Tightens: any of nitrile, butyl (general-practice) > any of nitrile (upper)")]
    [InlineData("topic.a-rule: { limits: { width: { at-least: { inches: 1 }, source: law } } }", "Limit width Appears:  > at least 25.4 mm (upper)")]
    [InlineData("topic.a-rule: { not-met: { plan: stop } }", "Severity not met at plan Tightens: hold > stop")]
    [InlineData("topic.a-rule: { not-met: { quote: hold } }", "Severity not met at quote Tightens: not judged > hold")]
    [InlineData("topic.a-rule: { missing: { plan: reminder }, relaxed-by: the city, sources: [law] }", "Severity not known at plan Loosens: caution > reminder")]
    [InlineData("topic.a-rule: { tiers: { worse: { not-met: { plan: stop, quote: stop } } } }", "Severity worse, not met at quote Tightens: not judged > stop")]
    [InlineData("topic.a-rule: { tiers: { light: { not-met: { plan: reminder } } } }", "Severity light Appears:  > light")]
    [InlineData("topic.a-rule: { release: [builder] }", "Release release Changes: owner > builder")]
    [InlineData("topic.a-rule: { imminent-set-by: safety officer }", "Release imminent-set-by Appears:  > safety officer")]
    [InlineData("topic.a-rule: { caution: Beware. }", "Words caution Changes: Take care. > Beware.")]
    [InlineData("topic.a-rule: { remedy: { not-met: Mend it. } }", "Words remedy.not-met Appears:  > Mend it.")]
    [InlineData("topic.a-rule: { sources: [law] }", "Sources  Appears:  > A law (read)")]
    [InlineData("topic.c-rule: { must: Yes., not-met: { plan: hold }, missing: { plan: hold }, release: [owner], sources: [law] }", "Requirement  Appears:  > Yes.")]
    public void Each_kind_of_difference_is_told_once_and_back_again(string says, string expected)
    {
        using var folder = new TemporaryFolder();
        folder.Write("general-practice/rule-set.yaml", "title: Base\nversion: 1.0.0\nlevel: general-practice\n");
        folder.Write("general-practice/topic.yaml", Base);
        folder.Write("upper/rule-set.yaml", "title: Upper\nversion: 1.0.0\nlevel: company\nabove: general-practice\n");
        folder.Write("upper/topic.yaml", $"sources:\n  law: {{ cite: A law, status: read }}\n{says}\n");
        var library = RuleLibrary.Load(folder.Path, out var violations);
        Assert.True(library is not null, string.Join(Environment.NewLine, violations));
        var (before, after) = (library.Stack(RuleLibrary.GeneralPractice), library.Stack("upper"));
        var differences = RuleCatalogue.Compare(before, after, DisplayUnits.Si);
        var told = differences.Where(one => one.Aspect != DifferenceAspect.Sources || expected.StartsWith("Sources", StringComparison.Ordinal));
        Assert.Equal(expected, Shown(Assert.Single(told)));
        Assert.Empty(RuleCatalogue.Compare(after, after, DisplayUnits.Si));
        Assert.Equal(
            differences.Select(one => (one.Requirement, one.Aspect, one.Name, Reverse(one.Kind), one.After, one.Before)),
            RuleCatalogue.Compare(after, before, DisplayUnits.Si).Select(one => (one.Requirement, one.Aspect, one.Name, one.Kind, one.Before, one.After)));
    }

    [Fact]
    public void A_plan_s_findings_appear_change_and_vanish_with_the_rule_sets()
    {
        var read = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml")), null, new ReadOptions(default));
        var general = Repository.Engine.Library.Stack(RuleLibrary.GeneralPractice);
        var found = Repository.Engine.Check(read.Plan!, general, new CheckOptions(Units: DisplayUnits.Si));
        var mild = found.Findings.First(finding => finding is { Outcome: Outcome.NotMet, Severity: Severity.Caution });
        var layer = new RuleSetFiles("stricter",
        [
            new RuleSetFile("rule-set.yaml", "title: Stricter\nversion: 1.0.0\nlevel: company\nabove: general-practice\n"),
            new RuleSetFile($"{mild.Requirement.Split('.')[0]}.yaml", $"{mild.Requirement}:\n  not-met: {{ plan: hold }}\n"),
        ]);
        var library = Repository.Engine.Library.With(layer, out var violations);
        Assert.True(library is not null, string.Join(Environment.NewLine, violations));
        var catalogue = new RuleCatalogue(new CheckEngine(library));
        var (before, after) = (library.Stack(RuleLibrary.GeneralPractice), library.Stack("stricter"));

        var changes = catalogue.Compare(read.Plan!, before, after, DisplayUnits.Si, TestContext.Current.CancellationToken).Changes;
        Assert.All(changes, change => Assert.Equal((mild.Requirement, DifferenceKind.Tightens, Severity.Caution, Severity.HoldPoint), (change.Requirement, change.Kind, change.Before!.Severity, change.After!.Severity)));
        Assert.Contains(changes, change => change.Subject == mild.Subject && change.After!.Found == mild.Found);
        Assert.All(catalogue.Compare(read.Plan!, after, before, DisplayUnits.Si, TestContext.Current.CancellationToken).Changes, change => Assert.Equal(DifferenceKind.Loosens, change.Kind));
        Assert.Empty(catalogue.Compare(read.Plan!, after, after, DisplayUnits.Si, TestContext.Current.CancellationToken).Changes);
    }

    [Fact]
    public void A_comparison_of_plans_is_the_difference_of_their_reports()
    {
        var library = Repository.Engine.Library;
        var catalogue = new RuleCatalogue(Repository.Engine);
        var before = library.Stack(RuleLibrary.GeneralPractice);
        var kinds = new HashSet<DifferenceKind>();
        foreach (var file in Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml"))
        {
            var plan = PlanReader.ReadText(File.ReadAllText(file), file, new ReadOptions(default)).Plan!;
            foreach (var set in library.RuleSets.Keys)
            {
                var after = library.Stack(set);
                var comparison = catalogue.Compare(plan, before, after, DisplayUnits.Us, TestContext.Current.CancellationToken);
                var (was, will) = (Findings(plan, before), Findings(plan, after));
                Assert.Equal(will.Keys.Except(was.Keys).Order(), Keys(comparison, DifferenceKind.Appears));
                Assert.Equal(was.Keys.Except(will.Keys).Order(), Keys(comparison, DifferenceKind.Vanishes));
                Assert.Equal(was.Keys.Intersect(will.Keys).Where(key => was[key] < will[key]).Order(), Keys(comparison, DifferenceKind.Tightens));
                kinds.UnionWith(comparison.Changes.Select(change => change.Kind));
            }
        }

        Assert.NotEmpty(kinds);
    }

    [Fact]
    public void Every_requirement_is_told_in_full()
    {
        var book = new RuleCatalogue(Repository.Engine).Book([], out _)!;
        foreach (var spec in book.Requirements.Values)
        {
            var told = RuleCatalogue.Requirement(book, spec.Id, DisplayUnits.Si)!;
            Assert.Equal((spec.Must, spec.Topic, 4), (told.MustHold, told.Topic, told.Severities.Length));
            Assert.All(told.Severities, row => Assert.Equal((spec.NotMet.At(row.Stage), spec.Missing.At(row.Stage)), (row.NotMet, row.Missing)));
            Assert.Equal(spec.Limits.Keys, told.Limits.Select(limit => limit.Name));
            Assert.All(told.Limits, limit => Assert.Equal(spec.Limits[limit.Name].Below.Select(below => below.Layer), limit.Below.Select(below => below.Layer)));
            Assert.NotEmpty(told.Hazard);
            Assert.NotEmpty(told.Caution);
        }

        Assert.Contains(book.Requirements.Values.SelectMany(spec => spec.Limits.Values), limit => limit.Below.Length > 0);
        Assert.Null(RuleCatalogue.Requirement(book, "no.such-requirement", DisplayUnits.Si));
    }

    [Theory]
    [InlineData("level: company\nabove: general-practice\n", "vent.yaml", "vent.air-can-leave:\n  not-met: { plan: hold }\n", "my/vent.yaml", 1)]
    [InlineData("level: company\nabove: nowhere\n", "vent.yaml", "vent.air-can-leave:\n  not-met: { plan: stop }\n", "my/rule-set.yaml", 4)]
    [InlineData("level: company\nabove: general-practice\n", "vent.yaml", "vent.air-can-leave:\n  not-mat: { plan: stop }\n", "my/vent.yaml", 2)]
    [InlineData("level: company\nabove: general-practice\n", "vent.yaml", "vent.air-can-leave: [\n", "my/vent.yaml", 2)]
    [InlineData("level: company\nabove: general-practice\n", "vent.yaml", "sources: { a: { cite: A, status: read } }\nvent.no-class:\n  must: Yes.\n  not-met: { plan: stop }\n  missing: { plan: stop }\n  release: [x]\n  sources: [a]\n", "my/rule-set.yaml", 0)]
    public void A_draft_that_does_not_fit_is_answered_with_its_place(string head, string name, string text, string file, int line)
    {
        var draft = new RuleCatalogue(Repository.Engine).Check(Draft(head, name, text), DisplayUnits.Si);
        Assert.Null(draft.RuleSet);
        Assert.Contains(draft.Violations, violation => (violation.File, violation.Line) == (file, line));
    }

    [Fact]
    public void A_draft_that_fits_is_answered_with_what_it_changes_and_nothing_is_kept()
    {
        var catalogue = new RuleCatalogue(Repository.Engine);
        var digest = Repository.Engine.Library.Digest;
        var draft = catalogue.Check(Draft("level: company\nabove: general-practice\n", "vent.yaml", "vent.air-can-leave:\n  not-met: { quote: stop }\n"), DisplayUnits.Si);
        Assert.Empty(draft.Violations);
        Assert.Equal("vent.air-can-leave Severity not met at quote Tightens: hold > stop", "vent.air-can-leave " + Shown(Assert.Single(draft.Differences)));
        Assert.Equal(("my", 1), (draft.RuleSet!.Id, draft.RuleSet.Requirements));
        Assert.Equal(digest, Repository.Engine.Library.Digest);
        Assert.Null(catalogue.RuleSet("my", DisplayUnits.Si));
    }

    [Fact]
    public void A_draft_of_a_rule_set_that_is_there_is_its_next_version_and_those_above_it_must_still_stand()
    {
        var library = Repository.Engine.Library;
        var general = RuleSetFiles.InFolder(Repository.PathOf("rulesets", RuleLibrary.GeneralPractice));
        Assert.Equal(library.RuleSets[general.Id].Digest, general.Digest);
        Assert.Empty(new RuleCatalogue(Repository.Engine).Check(general, DisplayUnits.Si).Differences);
        // Without its topics there is nothing that the layers above it could tighten.
        var emptied = general with { Files = [.. general.Files.Where(file => file.Name != "vent.yaml")] };
        Assert.NotEmpty(new RuleCatalogue(Repository.Engine).Check(emptied, DisplayUnits.Si).Violations);
    }

    [Fact]
    public void A_general_practice_without_words_that_reports_need_is_refused()
    {
        var general = RuleSetFiles.InFolder(Repository.PathOf("rulesets", RuleLibrary.GeneralPractice));
        foreach (var key in new[] { "no-subject:", "summary-stop:" })
        {
            var without = general with { Files = [.. general.Files.Select(file => file with { Text = string.Join('\n', file.Text.Split('\n').Where(line => !line.StartsWith(key, StringComparison.Ordinal))) })] };
            var violation = Assert.Single(new RuleCatalogue(Repository.Engine).Check(without, DisplayUnits.Si).Violations);
            Assert.Contains(key.TrimEnd(':'), violation.Found, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void No_draft_brings_the_check_down()
    {
        // Lines left out, doubled and swapped anywhere in the general practice: most do not load, some do, none throws.
        var random = new Random(4711);
        var general = RuleSetFiles.InFolder(Repository.PathOf("rulesets", RuleLibrary.GeneralPractice));
        var catalogue = new RuleCatalogue(Repository.Engine);
        for (var round = 0; round < 60; round++)
        {
            var spoiled = random.Next(general.Files.Length);
            var lines = general.Files[spoiled].Text.Split('\n').ToList();
            var line = random.Next(lines.Count);
            switch (random.Next(4))
            {
                case 0: lines.RemoveAt(line); break;
                case 1: lines.Insert(line, lines[random.Next(lines.Count)]); break;
                case 2: lines.RemoveRange(line, lines.Count - line); break;
                default: lines[line] = lines[line].Replace(random.Next(2) == 0 ? ":" : "{", "", StringComparison.Ordinal); break;
            }

            var draft = catalogue.Check(general with { Files = general.Files.SetItem(spoiled, general.Files[spoiled] with { Text = string.Join('\n', lines) }) }, DisplayUnits.Si);
            Assert.Equal(draft.RuleSet is null, draft.Violations.Count > 0);
        }
    }

    private static RuleSetFiles Draft(string head, string name, string text) =>
        new("my", [new RuleSetFile("rule-set.yaml", "title: Mine\nversion: 1.0.0\n" + head), new RuleSetFile(name, text)]);

    private static string Shown(Difference one) => $"{one.Aspect} {one.Name} {one.Kind}: {one.Before} > {one.After}";

    private static DifferenceKind Reverse(DifferenceKind kind) => kind switch
    {
        DifferenceKind.Appears => DifferenceKind.Vanishes,
        DifferenceKind.Vanishes => DifferenceKind.Appears,
        DifferenceKind.Tightens => DifferenceKind.Loosens,
        DifferenceKind.Loosens => DifferenceKind.Tightens,
        _ => kind,
    };

    private static Dictionary<string, Severity> Findings(Plan plan, RuleBook book) =>
        Repository.Engine.Check(plan, book, new CheckOptions(Units: DisplayUnits.Us), TestContext.Current.CancellationToken)
            .Findings.ToDictionary(finding => $"{finding.Requirement} {finding.Subject}", finding => finding.Severity);

    private static IEnumerable<string> Keys(PlanComparison comparison, DifferenceKind kind) =>
        comparison.Changes.Where(change => change.Kind == kind).Select(change => $"{change.Requirement} {change.Subject}").Order();
}
