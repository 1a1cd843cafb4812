namespace FoamRules.Remedies.Proposing;

/// <summary>A chosen whole number moves to one of its neighbours, the nearest first.</summary>
internal sealed class NextCount : IProposer
{
    private const int Farthest = 8;

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation) =>
        from spot in situation.Choices
        where spot.Value is int
        let now = (int)spot.Value!
        from apart in Enumerable.Range(1, Farthest)
        from other in new[] { now - apart, now + apart }
        where other > 0
        select new Proposal(spot.Path, other);
}
