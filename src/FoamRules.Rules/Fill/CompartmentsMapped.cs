using FoamRules.Model;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.compartments-mapped: everything that divides the cavity is known, each compartment has its own fill hole, and each
/// pour's hole lies above the foam that is already there. Vents are judged by vent.air-can-leave, masses and shots by
/// fill.shot-fills-cavity.
/// </summary>
public sealed class CompartmentsMapped(RequirementSpec spec) : FillRequirement(spec)
{
    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HiddenVoid;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var fill = numbers.Fill;
        var mapped = Verdict.Confirmed(fill.CompartmentsMapped, fill, nameof(CavityFill.CompartmentsMapped));
        var spaces = numbers.Spaces.Gap is null ? numbers.Spaces.Value.Length : 0;
        var astray = fill.Shots.Where(shot => numbers.Spaces.Gap is null && shot.Compartment > spaces)
            .Select(shot => Verdict.NotMet("no-such-compartment").With("number", shot.Compartment!.Value).With("compartments", spaces).On(shot, nameof(Shot.Compartment)));
        return Verdict.Worst([mapped, InEachSpace(numbers, space => Holes(numbers, space)), .. astray, .. Ends(numbers)]);
    }

    // A plate stands between two compartments, so one may start above the end of the one below it, and never below it.
    private static IEnumerable<Verdict> Ends(FillNumbers numbers)
    {
        var fill = numbers.Fill;
        if (fill.Compartments.IsEmpty || numbers.Spaces.Gap is not null)
        {
            yield break;
        }

        var spaces = numbers.Spaces.Value;
        foreach (var (below, above) in spaces.Zip(spaces.Skip(1)).Where(pair => Quantities.Compare(pair.Second.From, pair.First.To) < 0))
        {
            yield return Verdict.NotMet("overlap").With("number", above.Number).With("from", above.From).With("below", below.To).On(fill, nameof(CavityFill.Compartments));
        }

        if (fill.Height is { } height && Quantities.Compare(spaces[^1].To, height) != 0)
        {
            yield return Verdict.NotMet("other-height").With("top", spaces[^1].To).With("height", height)
                .On(fill, nameof(CavityFill.Compartments)).On(fill, nameof(CavityFill.Height), height);
        }
    }

    private static Verdict Holes(FillNumbers numbers, FillSpace space)
    {
        var (fill, field) = (numbers.Fill, nameof(CavityFill.FillHoles));
        var holes = numbers.HolesIn(space, fill.FillHoles, field);
        if (holes.Gap is { } unknown)
        {
            return unknown;
        }

        if (holes.Value.IsEmpty)
        {
            return Verdict.NotMet("no-fill-hole").On(fill, field);
        }

        var shots = numbers.ShotsInto(space);
        if (shots.Gap is { } gap)
        {
            return gap;
        }

        if (shots.Value.Length <= 1)
        {
            return Verdict.Met().On(fill, field);
        }

        // The pours together fill the compartment; each is taken to fill its share of the seconds.
        var before = shots.Value.SkipLast(1).Sum(shot => shot.Time.Seconds) / shots.Value.Sum(shot => shot.Time.Seconds);
        var foam = space.From + (space.Length * before);
        if (holes.Value.FirstOrDefault(hole => hole.Height is null) is { } unplaced)
        {
            return Verdict.Missing(unplaced, nameof(Hole.Height));
        }

        var highest = holes.Value.Select(hole => hole.Height!.Value).OrderDescending().First();
        return Quantities.Compare(highest, foam) > 0
            ? Verdict.Met().On(fill, field)
            : Verdict.NotMet("hole-in-foam").With("hole", highest).With("foam", foam).On(fill, field);
    }
}
