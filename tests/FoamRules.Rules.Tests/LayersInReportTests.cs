using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>A report says which layer decided, what the others say, what is relaxed, and how the rule sets were chosen.</summary>
public sealed class LayersInReportTests
{
    [Fact]
    public void A_finding_names_the_layer_that_decided_and_what_the_others_say()
    {
        var finding = FindingOf("air.exclusion-zone-set", "under that company 20 ft stop the start, as they would without the company");
        Assert.Equal(("example-company", 50.0), (finding.Limit!.Layer, ((UnitsNet.Length)finding.Limit.Value.Quantity!).Feet));
        var below = Assert.Single(finding.Limit.Below);
        Assert.Equal(("general-practice", 25.0, LimitDirection.AtLeast), (below.Layer, ((UnitsNet.Length)below.Value.Quantity!).Feet, below.Direction));
        Assert.Equal("general-practice", finding.SeverityLayer);
    }

    [Fact]
    public void A_house_rule_alone_holds_and_beside_a_broken_text_that_was_read_it_stops_and_names_that_text()
    {
        var held = FindingOf("air.exclusion-zone-set", "under that company 30 ft are held at pre-start too, since a house rule is no text that was read");
        Assert.NotEmpty(held.CappedBecause);
        Assert.All(held.Sources, source => Assert.Equal(SourceStatus.CommonPractice, source.Status));
        var stopped = FindingOf("air.exclusion-zone-set", "under that company 20 ft stop the start, as they would without the company");
        Assert.Empty(stopped.CappedBecause);
        Assert.Contains(stopped.Sources, source => source.Layer == "general-practice" && source.Status == SourceStatus.Read);
    }

    [Fact]
    public void A_layer_that_sets_the_severity_is_named() =>
        Assert.Equal("us-wa", FindingOf("body.eyewash-in-reach", "in Washington State an eyewash 11 s away stops the start").SeverityLayer);

    [Fact]
    public void Every_relaxation_in_force_stands_in_the_report()
    {
        var report = ReportOf("air.exclusion-zone-set", "under that company 50 ft are just enough");
        Assert.Equal("product.drums-stored-at-temperature: warmest relaxed by example-company, by authority of the company's safety manager, with the supplier's written agreement "
            + "(UFGS 07570, sprayed polyurethane foam roofing: contents below 80 °F, out of direct sun)", Assert.Single(report.Relaxations));
    }

    [Fact]
    public void Each_rule_set_used_stands_with_status_dates_and_place()
    {
        var report = ReportOf("body.trained-on-isocyanates", "in the European Union training of five years ago to the day holds");
        Assert.Equal(["general-practice", "eu", "eu-exposure-2026"], report.RuleSets.Select(set => set.Id));
        var exposure = report.RuleSets[^1];
        Assert.Equal((RuleSetStatus.InForce, "2026-04-09", "2028-12-31", ""), (exposure.Status, exposure.EffectiveFrom, exposure.EffectiveUntil, exposure.Region));
        Assert.Equal(27, exposure.Countries.Length);
        Assert.Equal(("", "", ""), (report.RuleSets[0].EffectiveFrom, report.RuleSets[0].EffectiveUntil, report.RuleSets[0].Region));
        Assert.Equal("eu-exposure-2029 is not used: it is not in force on the work date 2026-05-12 (from 2029-01-01).", Assert.Single(report.RuleSetNotes));
    }

    [Fact]
    public void A_report_goes_through_the_contract_and_back_with_its_layers()
    {
        var report = ReportOf("air.exclusion-zone-set", "under that company 20 ft stop the start, as they would without the company");
        var back = ReportMapper.ToReport(ReportMapper.ToMessage(report));
        Assert.Equal(report.RuleSetNotes, back.RuleSetNotes);
        Assert.Equal(report.RuleSets.Select(set => (set.Id, set.Status, set.EffectiveFrom, string.Join(' ', set.Countries), set.Region, set.Title)),
            back.RuleSets.Select(set => (set.Id, set.Status, set.EffectiveFrom, string.Join(' ', set.Countries), set.Region, set.Title)));
        Assert.Equal(report.Findings.Select(finding => (finding.Requirement, finding.SeverityLayer, finding.Limit?.Below.Length)),
            back.Findings.Select(finding => (finding.Requirement, finding.SeverityLayer, finding.Limit?.Below.Length)));
    }

    // Rule sets of every country together, and of any two places: each compiles, and none is looser than either alone.
    [Fact]
    public void Mixing_places_never_fails_and_never_loosens()
    {
        var library = Repository.Engine.Library;
        string[][] mixes = [["us-ibc-2018", "ca-on"], ["gb", "eu"], ["us-wa", "gb"], ["us-wa", "ca-national", "gb"], ["us-irc", "us-ibc", "eu"]];
        foreach (var mix in mixes)
        {
            var together = library.Choose(new RuleSetQuestion(null, null, null, mix));
            var network = Repository.Engine.NetworkFor(together);
            foreach (var one in mix)
            {
                var alone = RuleBook.Build(library.Choose(new RuleSetQuestion(null, null, null, [one])).Layers);
                foreach (var (id, spec) in alone.Requirements)
                {
                    var mixed = network.Book.Requirements[id];
                    Assert.All(spec.Limits.Where(limit => mixed.Limits.ContainsKey(limit.Key)), limit => Assert.True(mixed.Limits[limit.Key].IsAtLeastAsTightAs(limit.Value), $"{string.Join('+', mix)}: {id} {limit.Key}"));
                    Assert.All(spec.Limits.Where(limit => !mixed.Limits.ContainsKey(limit.Key)), limit => Assert.NotNull(limit.Value.Allows));
                    Assert.All(Enum.GetValues<Stage>(), stage => Assert.True((mixed.NotMet.At(stage) ?? 0) >= (spec.NotMet.At(stage) ?? 0) && (mixed.Missing.At(stage) ?? 0) >= (spec.Missing.At(stage) ?? 0), id));
                }
            }
        }

        Assert.NotEmpty(new RuleNetwork(library.Everything()).Requirements);
    }

    // The quotients are cut, so that the limit as MDI is never above the law's limit as NCO.
    [Theory]
    [InlineData("eu-exposure-2026", "average", 10)]
    [InlineData("eu-exposure-2026", "ceiling", 20)]
    [InlineData("eu-exposure-2029", "average", 6)]
    [InlineData("eu-exposure-2029", "ceiling", 12)]
    [InlineData("gb", "average-of-eh40", 20)]
    [InlineData("gb", "short-of-eh40", 70)]
    public void Limits_as_isocyanate_group_are_restated_as_MDI(string ruleSet, string name, double microgramsOfGroup)
    {
        var limit = Repository.Engine.Library.RuleSets[ruleSet].Requirements["body.respirator-protects-enough"].Limits[$"exposure.mdi.{name}"];
        var micrograms = limit.As<UnitsNet.MassConcentration>().MicrogramsPerCubicMeter;
        // Two groups of 42.017 g/mol in 250.26 g/mol.
        var asMdi = microgramsOfGroup * 250.26 / (2 * 42.017);
        Assert.InRange(micrograms, asMdi * 0.99, asMdi);
    }

    private static Report ReportOf(string requirement, string says) => CaseTests.Check(CaseOf(requirement, says));

    private static Finding FindingOf(string requirement, string says)
    {
        var one = CaseOf(requirement, says);
        return Assert.Single(CaseTests.Check(one).Findings, finding => finding.Requirement == requirement && finding.Subject.Id == one.SubjectId);
    }

    private static Case CaseOf(string requirement, string says) => CaseFiles.Read().Single(file => file.Requirement == requirement).Cases.Single(one => one.Says == says);
}
