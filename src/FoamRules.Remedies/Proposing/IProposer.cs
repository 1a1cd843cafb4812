namespace FoamRules.Remedies.Proposing;

/// <summary>Proposes changes of the plan that could clear a finding, the smallest first. Whether they do is found out by checking.</summary>
internal interface IProposer
{
    /// <summary>The proposals for a finding; none where it is not one of this proposer's.</summary>
    IEnumerable<Proposal> Propose(Situation situation);
}

/// <summary>One field and what it is to say.</summary>
/// <param name="Path">The field's path in the plan.</param>
/// <param name="Value">The contract's value; null takes the field out, so that it is asked for again.</param>
internal sealed record Edit(string Path, object? Value);

/// <summary>Changes that belong together.</summary>
/// <param name="Edits">The fields.</param>
internal sealed record Proposal(IReadOnlyList<Edit> Edits)
{
    public Proposal(string path, object value)
        : this([new Edit(path, value)])
    {
    }
}
