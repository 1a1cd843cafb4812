using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests;

/// <summary>The worst that could come out, as the questions say it, against what did come out of every case.</summary>
public sealed class WorstTests
{
    // Weak sources hold and do not stop: the worst of a requirement that rests on nothing else is a hold, whatever its severity says.
    [Theory]
    [InlineData("product.within-shelf-life", Severity.HoldPoint)]
    [InlineData("product.open-cell-kept-dry", Severity.HoldPoint)]
    [InlineData("pass.thickness-within-limit", Severity.StopWork)]
    [InlineData("fill.depth-per-pour-within-limit", Severity.StopWork)]
    [InlineData("vent.air-can-leave", Severity.StopWork)]
    public void The_cap_of_weak_sources_counts_in_it(string id, Severity worst)
    {
        var requirement = Repository.Engine.NetworkFor(Repository.Engine.Library.Choose(new RuleSetQuestion("US", "", null, []))).Requirements.Single(one => one.Spec.Id == id);
        Assert.Equal(worst, UnknownInputs.Worst(requirement, Stage.Plan));
    }

    [Fact]
    public void No_break_is_worse_than_it_and_what_rests_on_the_plan_says_so()
    {
        var (wrong, broken) = (new List<string>(), 0);
        foreach (var one in CaseFiles.Read().SelectMany(file => file.Cases).Where(one => one.Outcome == Outcome.NotMet))
        {
            var plan = PlanReader.ReadText(one.PlanJson, null, new ReadOptions(default)).Plan!;
            var network = Repository.Engine.NetworkFor(Repository.Engine.Library.Choose(new RuleSetQuestion(plan.Jurisdiction?.Country, plan.Jurisdiction?.Region, plan.WorkDate, plan.RuleSets)));
            var requirement = network.Requirements.Single(each => each.Spec.Id == one.Requirement);
            var writer = new FindingWriter(new Wording(network.Book, DisplayUnits.Si));
            foreach (var finding in new JobFacts(plan).All.Where(requirement.Covers).Select(bearer => writer.Write(requirement.Assess(bearer)).Finding).OfType<Finding>().Where(finding => finding.Outcome == Outcome.NotMet))
            {
                broken++;
                if (finding.Severity > UnknownInputs.Worst(requirement, plan.Stage))
                {
                    wrong.Add($"{one}: {finding.Severity}");
                }

                if (!requirement.MayRestOnPlan && finding.Sources.FirstOrDefault(source => source.Layer is SheetLimit.Layer or PlanLimit.Layer) is { } source)
                {
                    wrong.Add($"{one}: rests on {source.Citation}");
                }
            }
        }

        Assert.True(broken > 500, $"{broken} breaks were seen");
        Assert.Empty(wrong);
    }
}
