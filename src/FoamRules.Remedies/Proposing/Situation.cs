using FoamRules.Exchange.Editing;
using FoamRules.Model;
using FoamRules.RuleSets;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>A finding, the plan that has it, and the rule sets that it was judged by.</summary>
/// <param name="Message">The plan's message. It is looked at, never changed.</param>
/// <param name="Plan">The plan's facts.</param>
/// <param name="Report">The report.</param>
/// <param name="Book">The rule sets.</param>
/// <param name="Finding">The finding.</param>
/// <param name="Check">Checks the plan with edits, and answers the report; null where it cannot be read.</param>
internal sealed record Situation(
    Contract.Plan Message, Plan Plan, Report Report, RuleBook Book, Finding Finding, Func<Proposal, Report?> Check)
{
    /// <summary>The figures that people use.</summary>
    public Figures Figures { get; } = new(Book);

    /// <summary>On site, a yes is no longer a plan but a fact: somebody has to look.</summary>
    public bool CanPlanYes => Plan.Stage is Stage.Quote or Stage.Plan;

    /// <summary>The work item that the finding is on, by its place in the plan; null where it is on something else.</summary>
    public WorkItem? Work => Finding.Subject.Kind == SubjectKind.Work ? Plan.Work.FirstOrDefault(work => work.Id == Finding.Subject.Id) : null;

    /// <summary>The message of that work item.</summary>
    public Contract.WorkItem? WorkMessage => Message.Work.FirstOrDefault(work => work.Id == Finding.Subject.Id);

    /// <summary>Its product, as the data sheet describes it.</summary>
    public Product? Sheet => Plan.Products.FirstOrDefault(product => product.Id == Work?.Product);

    /// <summary>The path of that work item.</summary>
    public string WorkPath => $"work[{Finding.Subject.Id}]";

    /// <summary>The fields that the finding rests on and that whoever plans may choose.</summary>
    public IEnumerable<PlanSpot> Choices => Finding.Evidence.Select(evidence => PlanSpot.Find(Message, evidence.Path)).OfType<PlanSpot>().Where(spot => spot.IsChoice && !IsDone(spot));

    /// <summary>How many passes are on the face; before the pre-start check there is none, whatever the plan says.</summary>
    public int PassesDone => Plan.Stage == Stage.PreStart ? Work?.Spray?.PassesDone ?? 0 : 0;

    // A pass that is on the face is no choice any more.
    private bool IsDone(PlanSpot spot) => Enumerable.Range(0, PassesDone).Any(pass => spot.Path.StartsWith($"{WorkPath}.spray.passes[{pass}]", StringComparison.Ordinal));
}
