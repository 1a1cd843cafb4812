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

    // Not a self-contained set, whose air lasts for minutes and not for a shift, and no air on demand, which a leak draws in.
    private static IEnumerable<Contract.Respirator> Kinds() =>
        from type in new[] { Contract.RespiratorType.AirPurifying, Contract.RespiratorType.PoweredAirPurifying, Contract.RespiratorType.SuppliedAir }
        from facepiece in Enum.GetValues<Contract.Facepiece>()
        where facepiece != Contract.Facepiece.Unspecified
        from mode in type == Contract.RespiratorType.SuppliedAir ? new[] { Contract.AirMode.ContinuousFlow, Contract.AirMode.PressureDemand } : [Contract.AirMode.Unspecified]
        select new Contract.Respirator { Type = type, Facepiece = facepiece, Mode = mode };

    private static List<Edit> Edits(string path, Contract.Respirator worn, Contract.Respirator kind) =>
    [
        .. worn.Type != kind.Type ? [new Edit($"{path}.type", (int)kind.Type)] : Array.Empty<Edit>(),
        .. worn.Facepiece != kind.Facepiece ? [new Edit($"{path}.facepiece", (int)kind.Facepiece)] : Array.Empty<Edit>(),
        .. worn.Mode != kind.Mode ? [new Edit($"{path}.mode", kind.Mode == Contract.AirMode.Unspecified ? null : (int)kind.Mode)] : Array.Empty<Edit>(),
    ];
}
