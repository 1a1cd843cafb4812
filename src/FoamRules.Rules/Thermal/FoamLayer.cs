using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.Rules.Passes;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>The foam of a piece of work as a layer of the envelope.</summary>
/// <param name="Layer">The layer of the plan; null where the plan names none.</param>
/// <param name="Thickness">Its thickness: as planned, at close-out as built.</param>
/// <param name="Aged">The aged conductivity whose tested thickness lies nearest.</param>
internal sealed record FoamLayer(EnvelopeLayer? Layer, Derived<Length> Thickness, Derived<AgedConductivity> Aged)
{
    /// <summary>The foam of a piece of work.</summary>
    public static FoamLayer Of(WorkFacts work, Envelope envelope)
    {
        var layer = envelope.Layers.FirstOrDefault(one => one.IsThisFoam == true);
        var thickness = ThicknessOf(work, envelope, layer);
        return new FoamLayer(layer, thickness, thickness.Gap is null ? Nearest(work.Sheet, thickness.Value) : Derived<AgedConductivity>.Without(thickness.Gap));
    }

    // Of what is specified and what the passes add up to, the thinner insulates less; as built, the mean of the depths counts.
    private static Derived<Length> ThicknessOf(WorkFacts work, Envelope envelope, EnvelopeLayer? layer)
    {
        if (work is not SprayFacts sprayed)
        {
            return layer is null ? Derived<Length>.Missing(envelope, nameof(Envelope.Layers))
                : Given(layer.Thickness, layer, nameof(EnvelopeLayer.Thickness));
        }

        var spray = sprayed.Spray;
        if (sprayed.AsBuilt)
        {
            return spray.Survey is { Depths: { IsEmpty: false } depths }
                ? Derived<Length>.Of(PassSum.Of(depths) / depths.Length)
                : Given(PassSum.Of(sprayed), spray, nameof(SprayApplication.Survey));
        }

        var passes = PassSum.Of(sprayed);
        return Given(passes is null || spray.Thickness < passes ? spray.Thickness ?? passes : passes, spray, nameof(SprayApplication.Thickness));
    }

    private static Derived<Length> Given(Length? value, PlanNode node, string property) =>
        value is { } known ? Derived<Length>.Of(known) : Derived<Length>.Missing(node, property);

    private static Derived<AgedConductivity> Nearest(Product sheet, Length thickness)
    {
        if (sheet.AgedConductivities.IsEmpty)
        {
            return Derived<AgedConductivity>.Missing(sheet, nameof(Product.AgedConductivities));
        }

        var gaps = sheet.AgedConductivities.SelectMany(aged => new[]
        {
            aged.Conductivity is null ? Verdict.Missing(aged, nameof(AgedConductivity.Conductivity)) : null,
            aged.TestedThickness is null ? Verdict.Missing(aged, nameof(AgedConductivity.TestedThickness)) : null,
        });
        return Gaps.Of(gaps) is { } gap
            ? Derived<AgedConductivity>.Without(gap)
            : Derived<AgedConductivity>.Of(sheet.AgedConductivities.MinBy(aged => (Math.Abs(aged.TestedThickness!.Value.Meters - thickness.Meters), aged.TestedThickness.Value.Meters))!);
    }
}
