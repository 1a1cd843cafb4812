using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>The layers of an envelope for the calculations: those between the framing and, where there is framing, those through it.</summary>
/// <param name="Between">The layers between the framing.</param>
/// <param name="Through">The layers through the framing; empty where there is none, or where it is metal.</param>
/// <param name="Share">The framing's share of the area.</param>
/// <param name="Metal">True where the framing is metal: the sum of layers does not hold for it.</param>
internal sealed record Construction(ImmutableArray<WallLayer> Between, ImmutableArray<WallLayer> Through, Ratio Share, bool Metal)
{
    /// <summary>The layers of an envelope, or what is missing.</summary>
    public static Derived<Construction> Of(Envelope envelope, FoamLayer foam)
    {
        if (envelope.Layers.IsEmpty)
        {
            return Derived<Construction>.Missing(envelope, nameof(Envelope.Layers));
        }

        if (foam.Layer is null)
        {
            return Derived<Construction>.Without(Verdict.Missing(envelope.Layers[0], nameof(EnvelopeLayer.IsThisFoam)));
        }

        if (Gaps.Of(foam.Thickness.Gap, foam.Aged.Gap) is { } unknownFoam)
        {
            return Derived<Construction>.Without(unknownFoam);
        }

        var between = envelope.Layers.Select(layer => Plain(layer, foam)).ToList();
        var framing = envelope.Framing;
        if (Gaps.Of([.. between.Select(layer => layer.Gap), Unknown(envelope, framing)]) is { } gap)
        {
            return Derived<Construction>.Without(gap);
        }

        ImmutableArray<WallLayer> plain = [.. between.Select(layer => layer.Value)];
        var share = framing!.Share!.Value;
        if (share.DecimalFractions <= 0 || framing.Metal == true)
        {
            return Derived<Construction>.Of(new Construction(plain, [], share, share.DecimalFractions > 0));
        }

        var through = envelope.Layers.Select((layer, index) => layer.Framed == true ? Framed(layer, framing, foam) : between[index]).ToList();
        return Gaps.Of(through.Select(layer => layer.Gap)) is { } framed
            ? Derived<Construction>.Without(framed)
            : Derived<Construction>.Of(new Construction(plain, [.. through.Select(layer => layer.Value)], share, false));
    }

    /// <summary>Resistance of the whole with its films and framing.</summary>
    public Calculated<WallResistance> Resistance(SurfaceResistances films) => Through.IsEmpty
        ? Layers.Resistance(Between, films)
        : Layers.BridgedResistance([new WallSection(Ratio.FromDecimalFractions(1 - Share.DecimalFractions), Between), new WallSection(Share, Through)], films);

    /// <summary>Temperature factor of the coldest inner surface: at the framing where there is some.</summary>
    public Calculated<Ratio> SurfaceFactor(SurfaceResistances films)
    {
        var between = Layers.SurfaceFactor(Between, films);
        if (Through.IsEmpty || !between.HasValue)
        {
            return between;
        }

        var through = Layers.SurfaceFactor(Through, films);
        return through.HasValue && through.Value > between.Value ? between : through;
    }

    private static Verdict? Unknown(Envelope envelope, Framing? framing)
    {
        if (framing?.Share is not { } share)
        {
            return framing is null ? Verdict.Missing(envelope, nameof(Envelope.Framing)) : Verdict.Missing(framing, nameof(Framing.Share));
        }

        return share.DecimalFractions <= 0 || framing.Metal == true ? null
            : framing.Conductivity is null ? Verdict.Missing(framing, nameof(Framing.Conductivity))
            : !envelope.Layers.Any(layer => layer.Framed == true) ? Verdict.Missing(envelope.Layers[0], nameof(EnvelopeLayer.Framed))
            : null;
    }

    private static Derived<WallLayer> Plain(EnvelopeLayer layer, FoamLayer foam)
    {
        if (ReferenceEquals(layer, foam.Layer))
        {
            return Solid(layer, foam.Thickness.Value, foam.Aged.Value.Conductivity!.Value);
        }

        if (layer.Resistance is { } resistance)
        {
            // Only the heat through the layers is worked out here: what vapour they hold back does not count.
            return Derived<WallLayer>.Of(new WallLayer(NameOf(layer), resistance, Length.Zero));
        }

        return Gaps.Of(
            layer.Thickness is null ? Verdict.Missing(layer, nameof(EnvelopeLayer.Thickness)) : null,
            layer.Conductivity is null ? Verdict.Missing(layer, nameof(EnvelopeLayer.Conductivity)) : null) is { } gap
            ? Derived<WallLayer>.Without(gap)
            : Solid(layer, layer.Thickness!.Value, layer.Conductivity!.Value);
    }

    private static Derived<WallLayer> Framed(EnvelopeLayer layer, Framing framing, FoamLayer foam)
    {
        var thickness = ReferenceEquals(layer, foam.Layer) ? foam.Thickness.Value : layer.Thickness;
        return thickness is { } known ? Solid(layer, known, framing.Conductivity!.Value) : Derived<WallLayer>.Missing(layer, nameof(EnvelopeLayer.Thickness));
    }

    private static Derived<WallLayer> Solid(EnvelopeLayer layer, Length thickness, ThermalConductivity conductivity) =>
        Derived<WallLayer>.From(Layers.Layer(NameOf(layer), thickness, conductivity, layer.VapourDiffusionFactor ?? 1));

    private static string NameOf(EnvelopeLayer layer) => layer.Name ?? (layer.IsThisFoam == true ? "foam" : "layer");
}
