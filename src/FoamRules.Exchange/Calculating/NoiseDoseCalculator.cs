using FoamRules.Calculations;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Noise dose of a day.</summary>
internal static class NoiseDoseCalculator
{
    public static Contract.NoiseDoseResponse Run(Contract.NoiseDoseRequest request, Working working)
    {
        var rule = request.Rule;
        var dose = working.Take(NoiseDose.Dose(
            [.. request.Exposures.Select(exposure => new NoiseExposure(exposure.Task, exposure.Level.Quantity(), exposure.Time.Quantity(), exposure.Peak?.Quantity()))],
            new NoiseRule(
                rule.CriterionLevel.Quantity(),
                rule.CriterionTime.Quantity(),
                rule.ExchangeRate.Quantity(),
                rule.Threshold?.Quantity(),
                [.. rule.Table.Select(row => new NoiseTableRow(row.Level.Quantity(), row.Time.Quantity()))],
                rule.Ceiling?.Quantity(),
                rule.PeakCeiling?.Quantity(),
                rule.Source)));
        return new Contract.NoiseDoseResponse
        {
            Dose = dose.Dose?.Message(),
            EquivalentLevel = dose.EquivalentLevel?.Message(),
            AboveCeiling = { dose.AboveCeiling },
            PeaksAbove = { dose.PeaksAbove },
        };
    }
}
