using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>
/// heat.r-value-reached: the foam, and the whole with films and framing, reach what is asked of them. R is thickness divided by
/// conductivity, by an aged value tested at about this thickness: a value of one inch is not multiplied by inches. Metal framing
/// needs a U-factor by test or by a two-dimensional calculation.
/// </summary>
public sealed class RValueReached : EnvelopeRequirement
{
    private readonly Limit _testedThickness;

    /// <summary>The requirement as the rule sets state it.</summary>
    public RValueReached(RequirementSpec spec)
        : base(spec)
    {
        _testedThickness = Need("tested-thickness");
        _ = _testedThickness.As<Ratio>();
    }

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => NoLayer(bearer);

    private protected override Verdict Judge(WorkFacts work, Envelope envelope)
    {
        if (envelope is { RequiredFoamResistance: null, RequiredResistance: null, RequiredTransmittance: null })
        {
            return Verdict.Missing(envelope, nameof(Envelope.RequiredResistance));
        }

        var foam = FoamLayer.Of(work, envelope);
        return Verdict.Worst(Parts(envelope, foam).OfType<Verdict>());
    }

    private IEnumerable<Verdict?> Parts(Envelope envelope, FoamLayer foam)
    {
        if (Gaps.Of(foam.Thickness.Gap, foam.Aged.Gap) is { } gap)
        {
            // A U-factor by test needs neither; whatever else is asked does.
            yield return envelope is { RequiredFoamResistance: null, RequiredResistance: null, Framing: { Metal: true, Transmittance: not null } } ? null : gap;
        }
        else
        {
            yield return OfFoam(envelope, foam);
            yield return AtThisThickness(foam);
        }

        yield return OfWhole(envelope, foam);
    }

    private Verdict AtThisThickness(FoamLayer foam)
    {
        var (aged, thickness) = (foam.Aged.Value, foam.Thickness.Value);
        var tested = aged.TestedThickness!.Value;
        var apart = Ratio.FromDecimalFractions(Math.Abs((tested.Meters / thickness.Meters) - 1)).ToUnit(UnitsNet.Units.RatioUnit.Percent);
        return Hold(apart, _testedThickness).Saying("other-thickness").On(aged, nameof(AgedConductivity.TestedThickness), tested)
            .With("tested", tested).With("thickness", thickness);
    }

    private static Verdict? OfFoam(Envelope envelope, FoamLayer foam)
    {
        if (envelope.RequiredFoamResistance is not { } required)
        {
            return null;
        }

        var (thickness, conductivity) = (foam.Thickness.Value, foam.Aged.Value.Conductivity!.Value);
        var layer = Layers.Layer("foam", thickness, conductivity, 1);
        return layer.HasValue
            ? Hold(layer.Value.Resistance.ToUnit(required.Unit), PlanLimit.Of(envelope, nameof(Envelope.RequiredFoamResistance), required, Tighter.Higher)).Saying("foam")
                .Worked(layer.Steps).With("thickness", thickness).With("conductivity", conductivity)
                .With("needed", Measure.AtLeast(Length.FromMeters(required.SquareMeterKelvinsPerWatt * conductivity.WattsPerMeterKelvin)))
            : Verdict.OutOfRange(layer.Refusal!);
    }

    private Verdict? OfWhole(Envelope envelope, FoamLayer foam)
    {
        if (envelope is { RequiredResistance: null, RequiredTransmittance: null })
        {
            return null;
        }

        var whole = Whole(envelope, foam);
        if (whole.Gap is { } gap)
        {
            return gap;
        }

        var byResistance = envelope.RequiredResistance is { } resistance
            ? Hold(whole.Value.Resistance.ToUnit(resistance.Unit), PlanLimit.Of(envelope, nameof(Envelope.RequiredResistance), resistance, Tighter.Higher)) : null;
        var byTransmittance = envelope.RequiredTransmittance is { } transmittance
            ? Hold(whole.Value.Transmittance.ToUnit(transmittance.Unit), PlanLimit.Of(envelope, nameof(Envelope.RequiredTransmittance), transmittance, Tighter.Lower)) : null;
        return Verdict.Worst(new[] { byResistance, byTransmittance }.OfType<Verdict>()).Saying("whole").Worked(whole.Steps);
    }

    private Derived<WallResistance> Whole(Envelope envelope, FoamLayer foam)
    {
        if (envelope.Framing is { Metal: true, Share: var share } metal && share is not { DecimalFractions: <= 0 })
        {
            return metal.Transmittance is { } tested && tested.WattsPerSquareMeterKelvin > 0
                ? Derived<WallResistance>.Of(new WallResistance(ThermalResistance.FromSquareMeterKelvinsPerWatt(1 / tested.WattsPerSquareMeterKelvin), tested))
                : Derived<WallResistance>.Missing(metal, nameof(Framing.Transmittance));
        }

        var construction = Construction.Of(envelope, foam);
        var films = Films.ForHeat(envelope);
        return Gaps.Of(construction.Gap, films.Gap) is { } gap
            ? Derived<WallResistance>.Without(gap)
            : Derived<WallResistance>.From(construction.Value.Resistance(films.Value));
    }
}
