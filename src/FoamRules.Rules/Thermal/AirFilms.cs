using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>Surface resistances: as the plan gives them, else the rule set's.</summary>
internal sealed class AirFilms
{
    /// <summary>Reads them, so that a missing one is found at start.</summary>
    /// <param name="shared">What parameters.yaml gives.</param>
    /// <exception cref="RuleSetMismatchException">One is missing.</exception>
    public AirFilms(ImmutableSortedDictionary<string, Limit> shared)
    {
        Horizontal = Need("film-inside-horizontal");
        Up = Need("film-inside-up");
        Down = Need("film-inside-down");
        Mould = Need("film-inside-mould");
        Outside = Need("film-outside");

        Limit Need(string name)
        {
            var limit = shared.GetValueOrDefault(name) ?? throw new RuleSetMismatchException("parameters", $"parameters.yaml does not give {name}");
            _ = limit.As<ThermalResistance>();
            return limit;
        }
    }

    private Limit Horizontal { get; }

    private Limit Up { get; }

    private Limit Down { get; }

    private Limit Mould { get; }

    private Limit Outside { get; }

    /// <summary>The films for heat.</summary>
    public Derived<SurfaceResistances> ForHeat(Envelope envelope)
    {
        var inside = envelope.InsideSurfaceResistance ?? envelope.HeatFlow switch
        {
            HeatFlow.Horizontal => Horizontal.As<ThermalResistance>(),
            HeatFlow.Up => Up.As<ThermalResistance>(),
            HeatFlow.Down => Down.As<ThermalResistance>(),
            _ => (ThermalResistance?)null,
        };
        return inside is { } known
            ? Derived<SurfaceResistances>.Of(new SurfaceResistances(known, OutsideOf(envelope)))
            : Derived<SurfaceResistances>.Missing(envelope, nameof(Envelope.HeatFlow));
    }

    /// <summary>The films for mould: air moves less behind furniture and in corners.</summary>
    public SurfaceResistances ForMould(SurfaceResistances forHeat)
    {
        var mould = Mould.As<ThermalResistance>();
        return forHeat with { Inside = forHeat.Inside > mould ? forHeat.Inside : mould };
    }

    /// <summary>Surface coefficient of steel in the inside air.</summary>
    public HeatTransferCoefficient AroundSteelInside(Envelope envelope) => Coefficient(envelope.InsideSurfaceResistance ?? Horizontal.As<ThermalResistance>());

    /// <summary>Surface coefficient of steel in the outside air.</summary>
    public HeatTransferCoefficient AroundSteelOutside(Envelope envelope) => Coefficient(OutsideOf(envelope));

    private ThermalResistance OutsideOf(Envelope envelope) => envelope.OutsideSurfaceResistance ?? Outside.As<ThermalResistance>();

    private static HeatTransferCoefficient Coefficient(ThermalResistance film) => HeatTransferCoefficient.FromWattsPerSquareMeterKelvin(1 / film.SquareMeterKelvinsPerWatt);
}
