using FoamRules.Exchange.Editing;
using FoamRules.Model;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>A covering from the code's own lists, with the thickness that stands there, the thinnest first.</summary>
internal sealed class CoveringThatQualifies : IProposer
{
    private const string Barrier = "-barrier";

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        var path = $"{situation.WorkPath}.fire.covering";
        if (situation.Work is null || PlanSpot.Find(situation.Message, $"{path}.material") is not { IsChoice: true } material)
        {
            return [];
        }

        var inches = situation.Report.Units == DisplayUnits.Us;
        return
            from limit in situation.Book.Requirements[situation.Finding.Requirement].Limits.Values
            where limit.Name.Contains(Barrier, StringComparison.Ordinal) && limit.Value.Quantity is Length
            let listed = limit.Name[(limit.Name.LastIndexOf('.') + 1)..]
            from word in material.Field.EnumType.Values
            where word.Number != 0 && listed.Contains(material.WordOf(word.Number), StringComparison.Ordinal)
            let thickness = inches ? (Length)limit.Value.Quantity! : limit.Or?.Quantity as Length? ?? (Length)limit.Value.Quantity!
            orderby thickness.Millimeters
            select new Proposal(path, new Contract.Covering
            {
                Material = (Contract.CoveringMaterial)word.Number,
                Thickness = inches ? new Contract.Length { Inches = Math.Round(thickness.Inches, 6) } : new Contract.Length { Millimeters = Math.Round(thickness.Millimeters, 6) },
                FastenedToStructure = true,
            });
    }
}
