using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>Another kind of respirator, with as few differences as will do. What was known of the old one, its fit test among it, is asked for again.</summary>
internal sealed class AnotherRespirator : IProposer
{
    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        var path = $"people[{situation.Finding.Subject.Id}].respirator";
        if (situation.Message.People.FirstOrDefault(person => person.Id == situation.Finding.Subject.Id) is not { Respirator: { } worn })
        {
            return [];
        }

        return Kinds().Select(kind => Edits(path, worn, kind)).Where(edits => edits.Count > 0).OrderBy(edits => edits.Count).Select(edits => new Proposal(edits));
    }

    private static IEnumerable<Contract.Respirator> Kinds() =>
        from type in Enum.GetValues<Contract.RespiratorType>()
        where type is not (Contract.RespiratorType.Unspecified or Contract.RespiratorType.None)
        from facepiece in Enum.GetValues<Contract.Facepiece>()
        where facepiece != Contract.Facepiece.Unspecified
        let byLine = type is Contract.RespiratorType.SuppliedAir or Contract.RespiratorType.SelfContained
        from mode in Enum.GetValues<Contract.AirMode>()
        where byLine == (mode != Contract.AirMode.Unspecified)
        select new Contract.Respirator { Type = type, Facepiece = facepiece, Mode = mode };

    private static List<Edit> Edits(string path, Contract.Respirator worn, Contract.Respirator kind) =>
    [
        .. worn.Type != kind.Type ? [new Edit($"{path}.type", (int)kind.Type)] : Array.Empty<Edit>(),
        .. worn.Facepiece != kind.Facepiece ? [new Edit($"{path}.facepiece", (int)kind.Facepiece)] : Array.Empty<Edit>(),
        .. worn.Mode != kind.Mode ? [new Edit($"{path}.mode", kind.Mode == Contract.AirMode.Unspecified ? null : (int)kind.Mode)] : Array.Empty<Edit>(),
    ];
}
