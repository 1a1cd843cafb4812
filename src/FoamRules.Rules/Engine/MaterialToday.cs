using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.GearChecks;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>The material that a product's work takes (calculation 4.9), by in-place density and not by core density.</summary>
internal sealed class MaterialToday(NumberRules rules, ProductFacts product, Wording wording)
{
    public IEnumerable<Number> All()
    {
        var volumes = product.Work.OfType<SprayFacts>().Select(work => (Work: work, Need: MaterialNeed.VolumeOf(work))).ToList();
        var sprayed = volumes.Where(pair => pair.Need.Gap is null).ToList();
        if (sprayed.Count > 0)
        {
            var unknown = volumes.Where(pair => pair.Need.Gap is not null).Select(pair => pair.Work);
            yield return Known("number-board-feet", Measure.OfFactor(sprayed.Sum(pair => pair.Need.Value.BoardFeet)), unknown, "");
        }

        var needs = product.Work.Select(work => (Work: work, Need: rules.Material.MassOf(work))).ToList();
        var masses = needs.Where(pair => pair.Need.Gap is null).Select(pair => pair.Need).ToList();
        if (masses.Count == 0)
        {
            yield break;
        }

        var open = needs.Where(pair => pair.Need.Gap is not null).Select(pair => pair.Work).ToList();
        var mass = Mass.FromKilograms(masses.Sum(one => one.Value.Kilograms));
        ImmutableArray<WorkedStep> steps = [.. masses.SelectMany(one => one.Steps)];
        yield return Known("number-in-place", Measure.Of(mass), open, "") with { Steps = steps };

        var gear = product.Job.Gear;
        var (waste, set) = (gear.Waste ?? rules.Waste, gear.SetMass ?? rules.DrumSet);
        var sets = Material.SetsFor(mass, waste, set);
        if (sets.HasValue)
        {
            yield return Known("number-drawn", Measure.Of(sets.Value.Drawn), open, wording.Text("number-drawn-note", ("waste", wording.Show(waste)))) with { Steps = sets.Steps };
            yield return Known("number-sets", Measure.OfCount(sets.Value.WholeSets), open, wording.Text("number-sets-note", ("set", wording.Show(set)))) with { Steps = sets.Steps };
        }
    }

    // Where some work is not known, the sum is only the least that is needed.
    private Number Known(string name, Measure value, IEnumerable<WorkFacts> unknown, string note)
    {
        var without = string.Join(", ", unknown.Select(work => work.Item.Id));
        var open = without.Length == 0 ? "" : wording.Text("number-without", ("work", without));
        return new Number
        {
            Subject = product.Subject,
            Name = wording.Text(name),
            Aim = without.Length == 0 ? value : null,
            Low = without.Length == 0 ? null : value,
            Note = string.Join(wording.Semicolon, new[] { note, open }.Where(text => text.Length > 0)),
        };
    }
}
