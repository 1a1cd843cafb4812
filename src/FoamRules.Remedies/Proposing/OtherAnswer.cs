using Google.Protobuf.Reflection;

namespace FoamRules.Remedies.Proposing;

/// <summary>What is planned and is not to be, or the other way round: screens, a primer, sleeves. Only while it is a plan; on site somebody looks.</summary>
internal sealed class OtherAnswer : IProposer
{
    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation) => situation.CanPlanYes
        ? situation.Choices.Where(spot => spot.Field is { FieldType: FieldType.Bool, IsRepeated: false }).Where(spot => spot.Value is bool).Select(spot => new Proposal(spot.Path, !(bool)spot.Value!))
        : [];
}
