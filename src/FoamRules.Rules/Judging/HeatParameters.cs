using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Judging;

/// <summary>
/// What the rule sets say of heat in foam that has just been made, and what takes its place where the data sheet or the plan
/// gives it.
/// </summary>
public sealed class HeatParameters
{
    private readonly ImmutableSortedDictionary<string, Limit> _shared;
    private readonly Limit _rise, _riseLow, _riseHigh, _mixSpecificHeat, _mix, _air, _film, _foamSpecificHeat;

    /// <summary>Reads them, so that a missing one is found at start.</summary>
    /// <param name="shared">What parameters.yaml gives.</param>
    /// <exception cref="RuleSetMismatchException">One is missing.</exception>
    public HeatParameters(ImmutableSortedDictionary<string, Limit> shared)
    {
        _shared = shared;
        HotAbove = Need<Temperature>("hot-above");
        RiseLeft = Need<Ratio>("rise-left");
        (_riseLow, _rise, _riseHigh) = (Need<TemperatureDelta>("rise-low"), Need<TemperatureDelta>("rise"), Need<TemperatureDelta>("rise-high"));
        (_mix, _mixSpecificHeat) = (Need<Temperature>("mix"), Need<SpecificEntropy>("mix-specific-heat"));
        (_air, _film) = (Need<Temperature>("air"), Need<HeatTransferCoefficient>("film"));
        _foamSpecificHeat = Need<SpecificEntropy>("foam-specific-heat");
        foreach (var kind in Enum.GetValues<FoamKind>())
        {
            _ = (Need<Density>($"foam-density.{Answer.Word(kind)}"), Need<ThermalConductivity>($"foam-conductivity.{Answer.Word(kind)}"));
        }

        foreach (var substrate in Enum.GetValues<Substrate>())
        {
            _ = BackOf(substrate, _air.As<Temperature>());
        }
    }

    /// <summary>The temperature above which a point of the foam counts as hot.</summary>
    public Limit HotAbove { get; }

    /// <summary>The share of its rise that foam has left when it counts as cooled.</summary>
    public Limit RiseLeft { get; }

    /// <summary>The interval of the adiabatic rise, for its source.</summary>
    public Limit RiseInterval => _riseHigh;

    /// <summary>Surface coefficient of foam to air.</summary>
    public HeatTransferCoefficient Film => _film.As<HeatTransferCoefficient>();

    /// <summary>The warmer of what the rule sets take and what was measured in the area: a cool morning gets warmer.</summary>
    public Temperature AirOf(AreaFacts area) => Temperature.FromKelvins(
        area.Readings(ReadingKind.AirTemperature).Select(reading => reading.Temperature?.Kelvins ?? 0).Append(_air.As<Temperature>().Kelvins).Max());

    /// <summary>Temperature of the mix as it leaves the gun.</summary>
    public Temperature MixOf(Gear gear) => gear.MixTemperature ?? _mix.As<Temperature>();

    /// <summary>The rise that the reaction would give with nothing lost: by the sheet's heat of reaction, else the rule sets' interval.</summary>
    public Calculated<RiseInterval> RiseOf(Product sheet)
    {
        if (sheet.HeatOfReaction is { } heat)
        {
            return ReactionHeat.AdiabaticRise(heat, heat, heat, _mixSpecificHeat.As<SpecificEntropy>());
        }

        return Calculated<RiseInterval>.From(new RiseInterval(_riseLow.As<TemperatureDelta>(), _rise.As<TemperatureDelta>(), _riseHigh.As<TemperatureDelta>()));
    }

    /// <summary>The foam as it lies there.</summary>
    /// <param name="sheet">The product.</param>
    /// <param name="otherwise">The kind that is taken where the sheet does not say which it is.</param>
    public ThermalProperties FoamOf(Product sheet, FoamKind otherwise)
    {
        var kind = Answer.Word(sheet.Kind ?? otherwise);
        return new ThermalProperties(
            sheet.FreshConductivity ?? _shared[$"heat.foam-conductivity.{kind}"].As<ThermalConductivity>(),
            sheet.InPlaceDensity ?? sheet.CoreDensity ?? _shared[$"heat.foam-density.{kind}"].As<Density>(),
            sheet.SpecificHeat ?? _foamSpecificHeat.As<SpecificEntropy>());
    }

    /// <summary>The layer behind the first pass.</summary>
    /// <param name="substrate">What the foam is sprayed on.</param>
    /// <param name="start">Its temperature.</param>
    public HeatLayer BackOf(Substrate substrate, Temperature start)
    {
        var name = substrate is Substrate.GalvanizedSteel or Substrate.PaintedSteel ? Answer.Word(Substrate.Steel) : Answer.Word(substrate);
        var material = new ThermalProperties(
            Need<ThermalConductivity>($"back.{name}.conductivity").As<ThermalConductivity>(),
            Need<Density>($"back.{name}.density").As<Density>(),
            Need<SpecificEntropy>($"back.{name}.specific-heat").As<SpecificEntropy>());
        return new HeatLayer(name, Need<Length>($"back.{name}.thickness").As<Length>(), material, start);
    }

    /// <summary>A wait as people keep it: up to the next five minutes.</summary>
    public static Duration ForPeople(Duration wait) => Duration.FromMinutes(5 * Math.Ceiling((wait.Minutes / 5) - 1e-9));

    private Limit Need<T>(string name)
        where T : struct, IQuantity
    {
        var limit = _shared.GetValueOrDefault($"heat.{name}") ?? throw new RuleSetMismatchException("parameters", $"parameters.yaml does not give heat.{name}");
        _ = limit.As<T>();
        return limit;
    }
}
