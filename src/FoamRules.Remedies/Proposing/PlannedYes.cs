using FoamRules.Exchange.Editing;
using FoamRules.Model;

namespace FoamRules.Remedies.Proposing;

/// <summary>A yes or no of the subject that the finding does not rest on and that would clear it: ear protection, wind screens. Only while it is a plan.</summary>
/// <param name="field">The field's name.</param>
internal sealed class PlannedYes(string field) : IProposer
{
    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        var list = situation.Finding.Subject.Kind switch { SubjectKind.Area => "areas", SubjectKind.Person => "people", _ => "work" };
        var path = $"{list}[{situation.Finding.Subject.Id}].{field}";
        return situation.CanPlanYes && PlanSpot.Find(situation.Message, path) is { Value: not true } ? [new Proposal(path, true)] : [];
    }
}
