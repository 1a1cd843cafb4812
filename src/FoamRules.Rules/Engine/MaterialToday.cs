using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using UnitsNet;

namespace FoamRules.Rules.Engine;

/// <summary>The material that a product's work takes (calculation 4.9), by in-place density and not by core density.</summary>
internal sealed class MaterialToday(NumberRules rules, ProductFacts product, DisplayUnits units)
{
    public IEnumerable<Number> All()
    {
        var needs = product.Work.Select(work => (Work: work, Need: NeedOf(work))).ToList();
        var sprayed = needs.Select(pair => pair.Need.Volume).OfType<FoamVolume>().ToList();
        if (sprayed.Count > 0)
        {
            var unknown = needs.Where(pair => pair.Work is SprayFacts && pair.Need.Volume is null).Select(pair => pair.Work);
            yield return Known("number-board-feet", Measure.OfFactor(sprayed.Sum(volume => volume.BoardFeet)), unknown, "");
        }

        var masses = needs.Select(pair => pair.Need.Mass).OfType<Calculated<Mass>>().ToList();
        if (masses.Count == 0)
        {
            yield break;
        }

        var open = needs.Where(pair => pair.Need.Mass is null).Select(pair => pair.Work).ToList();
        var mass = Mass.FromKilograms(masses.Sum(one => one.Value.Kilograms));
        ImmutableArray<WorkedStep> steps = [.. masses.SelectMany(one => one.Steps)];
        yield return Known("number-in-place", Measure.Of(mass), open, "") with { Steps = steps };

        var gear = product.Job.Gear;
        var (waste, set) = (gear.Waste ?? rules.Waste, gear.SetMass ?? rules.DrumSet);
        var sets = Material.SetsFor(mass, waste, set);
        if (sets.HasValue)
        {
            yield return Known("number-drawn", Measure.Of(sets.Value.Drawn), open, rules.Text("number-drawn-note", ("waste", MeasureText.Show(waste, units)))) with { Steps = sets.Steps };
            yield return Known("number-sets", Measure.OfCount(sets.Value.WholeSets), open, rules.Text("number-sets-note", ("set", MeasureText.Show(set, units)))) with { Steps = sets.Steps };
        }
    }

    // Where some work is not known, the sum is only the least that is needed.
    private Number Known(string name, Measure value, IEnumerable<WorkFacts> unknown, string note)
    {
        var without = string.Join(", ", unknown.Select(work => work.Item.Id));
        var open = without.Length == 0 ? "" : rules.Text("number-without", ("work", without));
        return new Number
        {
            Subject = product.Subject,
            Name = rules.Text(name),
            Aim = without.Length == 0 ? value : null,
            Low = without.Length == 0 ? null : value,
            Note = string.Join("; ", new[] { note, open }.Where(text => text.Length > 0)),
        };
    }

    private (FoamVolume? Volume, Calculated<Mass>? Mass) NeedOf(WorkFacts work) => work switch
    {
        SprayFacts spray => OfSpray(spray),
        FillFacts fill => (null, OfFill(fill)),
        _ => (null, null),
    };

    private static (FoamVolume? Volume, Calculated<Mass>? Mass) OfSpray(SprayFacts work)
    {
        if (work.Spray is not { Area: { } area, Thickness: { } thickness } || Material.VolumeOf(area, thickness) is not { HasValue: true } volume)
        {
            return (null, null);
        }

        var density = work.Item.Density ?? work.Sheet.InPlaceDensity;
        return (volume.Value, density is null ? null : Known(Material.MassOf(volume.Value.Volume, density.Value)));
    }

    // By the mass to aim at; where the steel leaves the flow factor open, by the sheet's; where it gives none, by in-place density.
    private Calculated<Mass>? OfFill(FillFacts work)
    {
        var numbers = new FillNumbers(work, rules.Fill);
        if (work.Fill.Count is not { } cavities || numbers.Spaces.Gap is not null)
        {
            return null;
        }

        var each = numbers.Spaces.Value.Select(space => MassOf(numbers, space)).ToList();
        return each.Any(mass => mass.Gap is not null) ? null : Calculated<Mass>.From(
            Mass.FromKilograms(cavities * each.Sum(mass => mass.Value.Kilograms)), [.. each.SelectMany(mass => mass.Steps).Distinct()]);
    }

    private Derived<Mass> MassOf(FillNumbers numbers, FillSpace space)
    {
        var sheet = numbers.Facts.Sheet;
        var needed = numbers.NeededMass(space, sheet.MaxOverpack ?? rules.Overpack);
        if (needed.Gap is null)
        {
            return Derived<Mass>.Of(needed.Value.Aim, needed.Steps);
        }

        if (sheet.FlowFactor is { } factor && numbers.MinimumFill(space, voids => voids.Largest, factor) is { Gap: null } least)
        {
            return least;
        }

        return sheet.InPlaceDensity is { } density && numbers.Voids.Gap is null && FillMass.VoidVolume(numbers.Voids.Value.Largest, space.Length) is { HasValue: true } volume
            ? Derived<Mass>.From(Material.MassOf(volume.Value, density), volume.Steps)
            : Derived<Mass>.Without(needed.Gap);
    }

    private static Calculated<Mass>? Known(Calculated<Mass> mass) => mass.HasValue ? mass : null;
}
