using System.Collections.Immutable;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>The values of the rule sets that several requirements of a fill share.</summary>
public sealed class FillParameters
{
    /// <summary>Reads them, so that a missing one is found at start.</summary>
    /// <param name="shared">What parameters.yaml gives.</param>
    /// <exception cref="RuleSetMismatchException">One is missing.</exception>
    public FillParameters(ImmutableSortedDictionary<string, Limit> shared)
    {
        Shared = shared;
        OutputSpread = Need("output-spread");
        OutputEnds = Need("output-ends");
        SteelLikeTests = Need("steel-like-tests");
        PeakRiseFactor = Need("peak-rise-factor");
        DischargeCoefficient = Need("discharge-coefficient");
        AirDensity = Need("air-density");
        _ = (OutputSpread.As<Ratio>(), OutputEnds.Factor, SteelLikeTests.As<TemperatureDelta>(), PeakRiseFactor.Factor, DischargeCoefficient.Factor, AirDensity.As<Density>());

        Limit Need(string name) => shared.GetValueOrDefault(name) ?? throw new RuleSetMismatchException("parameters", $"parameters.yaml does not give {name}");
    }

    /// <summary>Where they were read from.</summary>
    internal ImmutableSortedDictionary<string, Limit> Shared { get; }

    /// <summary>Standard deviation of a shot's mass where nobody declares it.</summary>
    public Limit OutputSpread { get; }

    /// <summary>How many standard deviations lie between a planned mass and its low or high end.</summary>
    public Limit OutputEnds { get; }

    /// <summary>How far the steel's temperature may differ from that at the test shots before their flow factor no longer counts.</summary>
    public Limit SteelLikeTests { get; }

    /// <summary>Peak over mean growth of the foam's volume where the sheet gives none.</summary>
    public Limit PeakRiseFactor { get; }

    /// <summary>Discharge coefficient of a hole.</summary>
    public Limit DischargeCoefficient { get; }

    /// <summary>Density of the air that leaves.</summary>
    public Limit AirDensity { get; }
}
