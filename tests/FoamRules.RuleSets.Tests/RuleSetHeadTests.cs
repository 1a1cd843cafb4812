using FoamRules.Model;
using FoamRules.Testing;

namespace FoamRules.RuleSets.Tests;

/// <summary>What a rule set says of itself is checked when it is read, and what it stands on when all are there.</summary>
public sealed class RuleSetHeadTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public RuleSetHeadTests()
    {
        _folder.Write("general-practice/rule-set.yaml", "title: Base\nversion: 1.0.0\nlevel: general-practice\n");
        _folder.Write("us/rule-set.yaml", "title: US\nversion: 1.0.0\nlevel: country\nabove: general-practice\njurisdiction: { country: US }\n");
        _folder.Write("old/rule-set.yaml", "title: Old\nversion: 1.0.0\nlevel: country\nabove: general-practice\nstatus: withdrawn\n");
        _folder.Write("new/rule-set.yaml", "title: New\nversion: 1.0.0\nlevel: country\nabove: general-practice\nstatus: draft\n");
    }

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_head_is_read_with_all_that_it_says()
    {
        var head = Load("level: region\nabove: us\nadopts: [us-x]\nstatus: draft\nedition-of: us-code\neffective: { from: 2020-01-01, until: 2020-12-31 }\njurisdiction: { country: US, region: US-WA }\n",
            ("us-x", "level: region\nabove: us\n"))!.RuleSets["one"].Head;
        Assert.Equal(("One", "1.0.0", Level.Region, "us", RuleSetStatus.Draft, "us-code", "US-WA"), (head.Title, head.Version, head.Level, head.Above, head.Status, head.EditionOf, head.Region));
        Assert.Equal((new DateOnly(2020, 1, 1), new DateOnly(2020, 12, 31)), (head.From, head.Until));
        Assert.Equal(["US"], head.Countries);
        Assert.Equal(["us-x"], head.Adopts);
        Assert.Equal(["us", "us-x"], head.StandsOn);
        Assert.Equal([false, true, true, false, true], new DateOnly?[] { new(2019, 12, 31), new(2020, 1, 1), new(2020, 12, 31), new(2021, 1, 1), null }.Select(head.IsEffectiveOn));
    }

    [Fact]
    public void A_set_without_status_dates_and_place_is_in_force_everywhere_it_is_named()
    {
        var head = Load("level: company\nabove: us\n")!.RuleSets["one"].Head;
        Assert.Equal((RuleSetStatus.InForce, null, null, null), (head.Status, head.From, head.Until, head.Region));
        Assert.Empty(head.Countries);
    }

    [Theory]
    [InlineData("status: in force", "`in force`", 3)]
    [InlineData("level: province", "`province`", 3)]
    [InlineData("level: 3", "`3`", 3)]
    [InlineData("effective: { from: 2020-13-01 }", "`2020-13-01`", 3)]
    [InlineData("effective: { from: 2020-01-02, until: 2020-01-01 }", "2020-01-01, before the first day", 3)]
    [InlineData("effective: { since: 2020-01-01 }", "an unknown name", 3)]
    [InlineData("jurisdiction: { country: USA }", "`USA`", 3)]
    [InlineData("jurisdiction: { country: [US, uk] }", "`uk`", 3)]
    [InlineData("jurisdiction: { region: US-WA }", "nothing", 3)]
    [InlineData("jurisdiction: { country: US, region: WA }", "`WA`", 3)]
    [InlineData("jurisdiction: { country: US, region: CA-ON }", "`CA-ON`", 3)]
    [InlineData("country: US", "an unknown name", 3)]
    [InlineData("above: nowhere", "the unknown rule set `nowhere`", 3)]
    [InlineData("above: one", "one, which stands on this rule set itself", 3)]
    [InlineData("above: old", "old, which is withdrawn", 3)]
    [InlineData("above: new", "new, which is a draft", 3)]
    [InlineData("adopts: [nowhere]", "the unknown rule set `nowhere`", 3)]
    [InlineData("adopts: [old]", "old, which is withdrawn", 3)]
    [InlineData("adopts: [new]", "new, which is a draft", 3)]
    [InlineData("edition-of: us", "`us`, which is the id of a rule set", 3)]
    public void What_is_wrong_is_named_with_its_line(string line, string found, int at)
    {
        var rest = (line.StartsWith("level", StringComparison.Ordinal) ? "" : "level: region\n") + (line.StartsWith("above", StringComparison.Ordinal) ? "" : "above: us\n");
        Assert.Null(Load($"{line}\n{rest}"));
        var violation = Assert.Single(_violations, violation => violation.Found == found);
        Assert.Equal(("one/rule-set.yaml", at), (violation.File, violation.Line));
        Assert.True(violation.Column > 0 && violation.Allowed.Length > 0 && violation.Remedy.Length > 0);
    }

    [Fact]
    public void All_errors_of_a_head_are_named_at_once()
    {
        Assert.Null(Load("level: province\nstatus: valid\neffective: { from: soon }\njurisdiction: { country: usa, region: X }\nfrom: 2020-01-01\n"));
        string[] expected = ["effective.from", "jurisdiction.country", "jurisdiction.region", "level", "rule-set.from", "status"];
        Assert.Equal(expected, _violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Rule_sets_that_stand_on_each_other_are_refused()
    {
        Assert.Null(Load("level: region\nabove: us\nadopts: [two]\n", ("two", "level: region\nabove: us\nadopts: [one]\n")));
        Assert.Contains(_violations, violation => violation.Found == "two, which stands on this rule set itself");
    }

    [Fact]
    public void A_set_stands_on_one_of_a_lower_level_that_holds_where_it_does()
    {
        Assert.Null(Load("level: country\nabove: us\n"));
        Assert.Equal("us, which does not lie below this level", Assert.Single(_violations).Found);
        Assert.Null(Load("level: region\nabove: us\njurisdiction: { country: [US, CA] }\n"));
        Assert.Equal("us, which does not hold in CA", Assert.Single(_violations).Found);
        Assert.Null(Load("level: country\nabove: general-practice\nadopts: [two]\n", ("two", "level: region\nabove: us\n")));
        Assert.Equal("two, which does not lie below this level", Assert.Single(_violations).Found);
    }

    private IReadOnlyList<Violation> _violations = [];

    private RuleLibrary? Load(string head, params (string Id, string Head)[] others)
    {
        _folder.Write("one/rule-set.yaml", $"title: One\nversion: 1.0.0\n{head}");
        foreach (var (id, other) in others)
        {
            _folder.Write($"{id}/rule-set.yaml", $"title: {id}\nversion: 1.0.0\n{other}");
        }

        return RuleLibrary.Load(_folder.Path, out _violations);
    }
}
