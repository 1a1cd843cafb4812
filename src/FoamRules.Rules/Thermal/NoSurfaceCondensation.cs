using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>
/// heat.no-surface-condensation: at design conditions the coldest inner surface stays above the dew point of the inside air, and
/// its temperature factor is high enough that the air at it does not get damp enough for mould. The humidity is that of the
/// building's use. Metal framing needs a temperature factor by test or by a two-dimensional calculation. Water between the layers
/// is not judged here: it asks for a year's climate.
/// </summary>
public sealed class NoSurfaceCondensation : EnvelopeRequirement
{
    private readonly Limit _dew;
    private readonly Limit _mould;

    /// <summary>The requirement as the rule sets state it.</summary>
    public NoSurfaceCondensation(RequirementSpec spec)
        : base(spec)
    {
        _dew = Need("dew");
        _mould = Need("mould");
        _ = (_dew.As<Ratio>(), _mould.As<Ratio>());
    }

    /// <inheritdoc/>
    protected override string? WhyNot(WorkFacts bearer) => NoLayer(bearer);

    private protected override Verdict Judge(WorkFacts work, Envelope envelope)
    {
        var dewPoint = DewPoint(envelope);
        var factors = Factors(work, envelope);
        var cold = envelope.OutsideTemperature is null ? Verdict.Missing(envelope, nameof(Envelope.OutsideTemperature)) : null;
        if (Gaps.Of(dewPoint.Gap, cold, factors.Gap) is { } gap)
        {
            return gap;
        }

        var (inside, outside) = (envelope.InsideTemperature!.Value, envelope.OutsideTemperature!.Value);
        var needed = Layers.Required(inside, envelope.InsideHumidity!.Value, outside, _mould.As<Ratio>());
        if (!needed.HasValue)
        {
            return Verdict.OutOfRange(needed.Refusal!);
        }

        var (heat, mould) = factors.Value;
        var surface = Temperature.FromKelvins(outside.Kelvins + (heat * (inside.Kelvins - outside.Kelvins)));
        var dry = Hold(surface, _dew.Amounting(dewPoint.Value, Tighter.Higher)).Saying("dew").Worked([.. factors.Steps, .. dewPoint.Steps]);
        var healthy = Hold(mould, _mould.Amounting(new Scalar(needed.Value.Factor.DecimalFractions, UnitsNet.Units.ScalarUnit.Amount), Tighter.Higher)).Saying("mould")
            .Worked([.. factors.Steps, .. needed.Steps]);
        return (dry.Outcome == Outcome.NotMet ? dry : healthy)
            .On(envelope, nameof(Envelope.InsideHumidity), envelope.InsideHumidity.Value)
            .With("humidity", envelope.InsideHumidity.Value).With("inside", inside).With("outside", outside).With("damp", _mould.As<Ratio>());
    }

    // For heat and for mould; a factor by test stands for both.
    private Derived<(double Heat, double Mould)> Factors(WorkFacts work, Envelope envelope)
    {
        if (envelope.Framing is { Metal: true, Share: var share } metal && share is not { DecimalFractions: <= 0 })
        {
            return metal.SurfaceFactor is { } tested ? Derived<(double, double)>.Of((tested, tested)) : Derived<(double, double)>.Missing(metal, nameof(Framing.SurfaceFactor));
        }

        var construction = Construction.Of(envelope, FoamLayer.Of(work, envelope));
        var films = Films.ForHeat(envelope);
        if (Gaps.Of(construction.Gap, films.Gap) is { } gap)
        {
            return Derived<(double, double)>.Without(gap);
        }

        var heat = construction.Value.SurfaceFactor(films.Value);
        var mould = construction.Value.SurfaceFactor(Films.ForMould(films.Value));
        return (heat.Refusal ?? mould.Refusal) is { } refusal
            ? Derived<(double, double)>.Without(Verdict.OutOfRange(refusal))
            : Derived<(double, double)>.Of((heat.Value.DecimalFractions, mould.Value.DecimalFractions), [.. heat.Steps, .. mould.Steps]);
    }
}
