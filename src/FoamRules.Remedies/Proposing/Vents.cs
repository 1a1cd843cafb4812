using FoamRules.Model;
using FoamRules.Rules.Fill;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Remedies.Proposing;

/// <summary>
/// A vent at the top of each space that has none, as wide as the fill hole or as the weakest wall needs; a vent that is too low moved up,
/// one that is too narrow widened. Where no figure can be had of what the wall needs, the report says so of the vent as of any other. The engineer of record has agreed none of these, so that agreement is asked for again.
/// </summary>
internal sealed class Vents : IProposer
{
    private const string BelowTop = "below-top", AtTheTop = "vent.at-the-top-of-rise", TooNarrow = "vent.area-keeps-pressure-low";

    /// <inheritdoc/>
    public IEnumerable<Proposal> Propose(Situation situation)
    {
        if (FillOf.Numbers(situation) is not { Fill.VentHoles: { } vents } numbers || situation.WorkMessage?.CavityFill is not { VentHoles: { } message })
        {
            return [];
        }

        var inches = situation.Report.Units == DisplayUnits.Us;
        return situation.Finding.Requirement switch
        {
            AtTheTop => [.. Moved(situation, numbers, vents, inches)],
            TooNarrow => [.. Widened(situation, numbers, vents, inches)],
            _ => [.. Added(situation, numbers, vents, message, inches)],
        };
    }

    private static IEnumerable<Proposal> Added(Situation situation, FillNumbers numbers, HoleList vents, Contract.HoleList message, bool inches)
    {
        // As wide as the fill hole, where that is wide enough: one cutter less on site.
        var needed = Needed(numbers);
        var asFill = numbers.Fill.FillHoles?.Holes.Select(hole => hole.Diameter).OfType<Length>().Order().Cast<Length?>().FirstOrDefault();
        foreach (var diameter in new[] { needed is null || asFill > needed ? asFill : null, needed }.OfType<Length>().Distinct())
        {
            var holes = message.Holes.Select(hole => hole.Clone()).ToList();
            holes.AddRange(numbers.Spaces.Value.Where(space => VentsIn(space, vents).Count == 0).Select(space => new Contract.Hole
            {
                Diameter = situation.Figures.Up(diameter, inches),
                Height = situation.Figures.Up(Lowest(situation, space), inches, "fine"),
            }));
            yield return new Proposal($"{situation.WorkPath}.cavity_fill.vent_holes.holes", holes);
        }
    }

    private static IEnumerable<Proposal> Moved(Situation situation, FillNumbers numbers, HoleList vents, bool inches)
    {
        var edits = numbers.Spaces.Value.Select(space => (space, Highest: VentsIn(space, vents).OrderByDescending(index => vents.Holes[index].Height).Cast<int?>().FirstOrDefault()))
            .Where(pair => pair.Highest is { } highest && vents.Holes[highest].Height is { } height && Quantities.Compare(height, Lowest(situation, pair.space)) < 0)
            .Select(pair => new Edit($"{situation.WorkPath}.cavity_fill.vent_holes.holes[{pair.Highest}].height", situation.Figures.Up(Lowest(situation, pair.space), inches, "fine"))).ToList();
        return edits.Count > 0 ? [new Proposal(edits)] : [];
    }

    private static IEnumerable<Proposal> Widened(Situation situation, FillNumbers numbers, HoleList vents, bool inches)
    {
        if (Needed(numbers) is not { } needed)
        {
            return [];
        }

        var edits = numbers.Spaces.Value
            .Select(space => VentsIn(space, vents).Where(index => vents.Holes[index].Diameter is not null).OrderByDescending(index => vents.Holes[index].Diameter).Cast<int?>().FirstOrDefault())
            .OfType<int>().Distinct().Where(index => vents.Holes[index].Diameter < needed)
            .Select(index => new Edit($"{situation.WorkPath}.cavity_fill.vent_holes.holes[{index}].diameter", situation.Figures.Up(needed, inches))).ToList();
        return edits.Count > 0 ? [new Proposal(edits)] : [];
    }

    private static Length? Needed(FillNumbers numbers) =>
        numbers.Fill.WallHolds is { } holds && numbers.VentFor(holds) is { Gap: null } needed ? needed.Value : null;

    private static Length Lowest(Situation situation, FillSpace space) => space.To - situation.Book.Requirements[AtTheTop].Limits[BelowTop].As<Length>();

    private static List<int> VentsIn(FillSpace space, HoleList vents) =>
        [.. Enumerable.Range(0, vents.Holes.Length).Where(index => space.IsOnly || (vents.Holes[index].Height is { } height && space.Holds(height)))];
}
