using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Readings.Tests;

/// <summary>One report, arranged for each of its readers.</summary>
public sealed class ReadingTests
{
    private static readonly ReadingWords Words = new(Repository.Engine.Library.RuleSets[RuleLibrary.GeneralPractice].Texts);

    private static readonly Lazy<List<Report>> Reports = new(() =>
    [
        .. Directory.GetFiles(Repository.PathOf("shared", "plans"), "*.yaml").Order(StringComparer.Ordinal).Select(file => Check(PlanReader.ReadText(File.ReadAllText(file), file, new ReadOptions(default)))),
        .. Enumerable.Range(5000, 20).Select(seed => Check(PlanReader.ReadMessage(RandomPlans.Make((ulong)seed, 1 + (seed % 4)), new ReadOptions(DateTimeOffset.UnixEpoch)))),
    ]);

    public static TheoryData<Reader, bool> Readers { get; } = new(
        from reader in Enum.GetValues<Reader>()
        from all in new[] { false, true }
        select (reader, all));

    [Theory]
    [MemberData(nameof(Readers))]
    public void Every_word_is_there_and_no_placeholder_is_left_open(Reader reader, bool all)
    {
        foreach (var report in Reports.Value)
        {
            Assert.All(LinesOf(ReportReading.Of(report, reader, Words, all)), line =>
            {
                Assert.DoesNotContain("reading-", line, StringComparison.Ordinal);
                Assert.DoesNotMatch(@"\{[a-z_-]+\}", line);
            });
        }
    }

    [Theory]
    [MemberData(nameof(Readers))]
    public void A_report_that_a_service_has_sent_reads_as_it_did_there(Reader reader, bool all)
    {
        Assert.Contains(Reports.Value, report => report.ResponsiblePerson.Length == 0);
        foreach (var report in Reports.Value)
        {
            Assert.Equal(LinesOf(ReportReading.Of(report, reader, Words, all)), LinesOf(ReportReading.Of(ReportMapper.ToReport(ReportMapper.ToMessage(report)), reader, Words, all)));
        }
    }

    [Theory]
    [MemberData(nameof(Readers))]
    public void No_section_is_empty(Reader reader, bool all) =>
        Assert.All(Reports.Value.SelectMany(report => ReportReading.Of(report, reader, Words, all).Sections), section => Assert.NotEmpty(section.Entries));

    [Fact]
    public void The_safety_officer_sees_every_finding_once_with_what_it_rests_on()
    {
        foreach (var report in Reports.Value)
        {
            var entries = ReportReading.Of(report, Reader.Safety, Words, all: false).Sections.SelectMany(section => section.Entries).ToList();
            foreach (var finding in report.Findings)
            {
                var entry = Assert.Single(entries, entry => entry.Text.Contains($" · {ReportNames.Of(finding.Subject)} · {finding.Requirement}", StringComparison.Ordinal)
                    && !entry.Text.Contains($"{finding.Requirement}-", StringComparison.Ordinal));
                Assert.All(finding.Evidence, evidence => Assert.Contains(entry.Details, detail => detail.Text.Contains(evidence.Path, StringComparison.Ordinal)));
                Assert.All(finding.Sources, source => Assert.Contains(entry.Details, detail => detail.Text.Contains(source.Citation, StringComparison.Ordinal) && detail.Text.Contains(source.Layer, StringComparison.Ordinal)));
            }
        }
    }

    [Fact]
    public void The_office_sees_every_line_of_the_price_list_with_the_requirement_that_asks_for_it()
    {
        foreach (var report in Reports.Value)
        {
            var lines = LinesOf(ReportReading.Of(report, Reader.Office, Words, all: false)).ToList();
            Assert.All(report.PriceLines, price => Assert.Contains(lines, line =>
                line.StartsWith(ReportNames.Of(price.Subject) + ": ", StringComparison.Ordinal) && line.Contains(price.What, StringComparison.Ordinal) && line.Contains(price.Requirement, StringComparison.Ordinal)));
        }
    }

    [Theory]
    [InlineData(Disposition.Stop, Stage.PreStart, true, "STOP")]
    [InlineData(Disposition.Stop, Stage.Plan, true, "STOP")]
    [InlineData(Disposition.Hold, Stage.PreStart, true, "HOLD")]
    [InlineData(Disposition.Proceed, Stage.PreStart, true, "GO")]
    [InlineData(Disposition.ProceedWithCautions, Stage.PreStart, true, "GO WITH CARE")]
    [InlineData(Disposition.Proceed, Stage.PreStart, false, "HOLD")]
    [InlineData(Disposition.Proceed, Stage.Plan, true, "NOT YET")]
    [InlineData(Disposition.Proceed, Stage.Quote, true, "NOT YET")]
    public void Only_a_complete_check_on_site_tells_the_crew_to_go(Disposition disposition, Stage stage, bool complete, string word)
    {
        var report = Reports.Value[0] with { Disposition = disposition, Stage = stage, Complete = complete };
        Assert.Equal(word, ReportReading.Of(report, Reader.Crew, Words, all: false).Word);
    }

    [Fact]
    public void A_stopped_plan_gives_the_crew_no_numbers_to_work_by()
    {
        var report = Reports.Value.First(report => report is { Disposition: Disposition.Stop, Numbers.Length: > 0 });
        var lines = LinesOf(ReportReading.Of(report, Reader.Crew, Words, all: true)).ToList();
        Assert.All(report.Numbers, number => Assert.DoesNotContain(lines, line => line.StartsWith($"{ReportNames.Of(number.Subject)}: {number.Name} ", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_crew_s_sheet_is_short() => Assert.All(Reports.Value, report => Assert.InRange(
        ReportReading.Of(report, Reader.Crew, Words, all: false).Sections.Sum(section => section.Entries.Length), 1, 40));

    [Fact]
    public void Three_questions_come_first_the_worst_before_the_lighter_and_parts_are_not_asked_besides_their_whole()
    {
        var unknowns = new[] { Unknown("a.b", Severity.StopWork, "v.one"), Unknown("c", Severity.HoldPoint, "v.one", "v.two"), Unknown("a", Severity.Caution, "v.three"), Unknown("d", Severity.HoldPoint, "v.four"), Unknown("e", null, "v.five") };
        var view = ReportReading.Of(Reports.Value[0] with { Unknowns = [.. unknowns] }, Reader.Office, Words, all: false);
        var first = view.Sections.Single(section => section.Title.Contains("ask these three first", StringComparison.Ordinal));
        Assert.Equal(["What is a? (2 requirements wait; at worst: stop work) [a]", "What is c? (2 requirements wait; at worst: hold point) [c]", "What is d? (1 requirement waits; at worst: hold point) [d]"], first.Entries.Select(entry => entry.Text));
        Assert.Equal(["What is e? [e]"], view.Sections[view.Sections.IndexOf(first) + 1].Entries.Select(entry => entry.Text));
    }

    private static UnknownInput Unknown(string path, Severity? worst, params string[] requirements) => new(path, requirements.Length, worst, [.. requirements], $"What is {path}?");

    private static IEnumerable<string> LinesOf(ReportView view) =>
    [
        view.Word, view.Title, .. view.Head,
        .. view.Sections.SelectMany(section => section.Entries.SelectMany(entry => entry.Details.SelectMany(detail => new[] { detail.Label, detail.Text }).Prepend(entry.Text)).Prepend(section.Title)),
    ];

    private static Report Check(PlanRead read) => Repository.Engine.Check(read.Plan!, new CheckOptions(read.Digest)).Report!;
}
