using System.Collections.Concurrent;
using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using FoamRules.Testing;

namespace FoamRules.Rules.Tests.Mutation;

/// <summary>A case made ready to be judged many times by one requirement, without the rule engine: a plain call.</summary>
internal sealed class CaseRun
{
    private static readonly Report Empty = new() { PlanName = "", Stage = Stage.Plan, Disposition = Disposition.Proceed, Counts = new Counts(0, 0, 0, 0, 0, 0, 0), Units = DisplayUnits.Us };

    // No rule engine is compiled for it.
    private static readonly ConcurrentDictionary<string, Lazy<RuleBook>> Books = new(StringComparer.Ordinal);

    private readonly DisplayUnits _units;
    private readonly JobFacts _job;

    public CaseRun(Case one)
    {
        Case = one;
        var read = PlanReader.ReadText(one.PlanJson, null, new ReadOptions(default));
        var plan = read.Plan ?? throw new InvalidOperationException($"{one}: {string.Join("; ", read.Violations)}");
        _job = new JobFacts(plan);
        _units = plan.Jurisdiction?.Country == "US" ? DisplayUnits.Us : DisplayUnits.Si;
        var choice = Repository.Engine.Library.Choose(new RuleSetQuestion(plan.Jurisdiction?.Country, plan.Jurisdiction?.Region, plan.WorkDate, plan.RuleSets));
        Book = Books.GetOrAdd(choice.Key, _ => new Lazy<RuleBook>(() => RuleBook.Build(choice.Layers))).Value;
    }

    public Case Case { get; }

    /// <summary>The rule sets that the case's plan gets.</summary>
    public RuleBook Book { get; }

    /// <summary>What the requirement says by itself; null where it is not asked.</summary>
    public Assessment? Assess(IRequirement requirement, IReadOnlyList<IHazardRule> hazards) =>
        _job.All.Where(bearer => requirement.Covers(bearer) && bearer.Subject.Id == Case.SubjectId)
            .Where(bearer => hazards.Select(hazard => hazard.On(bearer)).OfType<IHazard<Bearer>>().Any(requirement.IsAskedBy))
            .Select(requirement.Assess).FirstOrDefault();

    /// <summary>What the requirement says otherwise than the case expects; null where it says the same.</summary>
    public string? Mismatch(IRequirement requirement, IReadOnlyList<IHazardRule> hazards)
    {
        if (Assess(requirement, hazards) is not { } assessment)
        {
            return Case.Outcome == Outcome.NotApplicable ? null : $"{Case}: it is not asked";
        }

        var (judgement, finding) = new FindingWriter(new Wording(Book, _units)).Write(assessment);
        return CaseCheck.Mismatch(Case, Empty with { Judgements = [judgement], Findings = finding is null ? [] : [finding] });
    }
}
