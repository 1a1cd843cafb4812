using FoamRules.Calculations;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>Protection factor needed and maximum use concentration of a respirator.</summary>
internal static class RespiratorCalculator
{
    public static Contract.RespiratorResponse Run(Contract.RespiratorRequest request, Working working)
    {
        CheckSubstance(request);
        MassConcentration Mass(Contract.AirConcentration concentration) => MassOf(concentration, request, working);

        Exposure[] exposures = [.. request.Exposures.Select(exposure => new Exposure(exposure.LimitName, Mass(exposure.Limit), Mass(exposure.Expected)))];
        var needed = working.Take(Respirator.NeededFactor(request.TaskFloor, exposures));
        var response = new Contract.RespiratorResponse
        {
            TaskFloor = needed.TaskFloor,
            FactorFromExposure = needed.FromExposure,
            NeededFactor = needed.Needed,
            GoverningLimit = needed.GoverningLimit,
        };
        if (request.Respirator is { } respirator)
        {
            var lowest = exposures.Min(exposure => exposure.Limit);
            var use = working.Take(Respirator.MaximumUseConcentration(
                respirator.AssignedProtectionFactor, lowest,
                respirator.Idlh is { } idlh ? Mass(idlh) : null,
                respirator.CartridgeLimit is { } cartridge ? Mass(cartridge) : null));
            response.MaximumUse = use.Concentration.Message();
            response.MaximumUseSetBy = Enum.Parse<Contract.MaximumUseReason>(use.Reason.ToString());
            response.Enough = respirator.AssignedProtectionFactor >= needed.Needed
                && exposures.All(exposure => Model.Quantities.Compare(exposure.ExpectedPeak, use.Concentration) <= 0);
        }

        return response;
    }

    private static MassConcentration MassOf(Contract.AirConcentration concentration, Contract.RespiratorRequest request, Working working)
    {
        switch (concentration.GivenAsCase)
        {
            case Contract.AirConcentration.GivenAsOneofCase.Vapour:
                var vapour = request.Vapour;
                return working.Take(Respirator.VapourMass(
                    concentration.Vapour.Quantity(), vapour.MolarMass.Quantity(), vapour.ReferenceTemperature.Quantity(), vapour.ReferencePressure.Quantity()));
            case Contract.AirConcentration.GivenAsOneofCase.Nco:
                var share = working.Take(Respirator.NcoShare(request.Isocyanate.MolarMass.Quantity(), request.Isocyanate.NcoGroups));
                return working.Take(Respirator.IsocyanateFromNco(concentration.Nco.Quantity(), share));
            default:
                return concentration.Mass.Quantity();
        }
    }

    // A concentration by volume or as NCO says nothing by mass until the substance is known.
    private static void CheckSubstance(Contract.RespiratorRequest request)
    {
        var given = request.Exposures.SelectMany(exposure => new[] { exposure.Limit, exposure.Expected })
            .Append(request.Respirator?.Idlh).Append(request.Respirator?.CartridgeLimit)
            .Select(concentration => concentration?.GivenAsCase).ToList();
        var violations = new List<Model.Violation>();
        if (given.Contains(Contract.AirConcentration.GivenAsOneofCase.Vapour) && request.Vapour is null)
        {
            violations.Add(new Model.Violation("vapour", "nothing", "the vapour, as a concentration is given by volume", "give vapour, or the concentration by mass"));
        }

        if (given.Contains(Contract.AirConcentration.GivenAsOneofCase.Nco) && request.Isocyanate is null)
        {
            violations.Add(new Model.Violation("isocyanate", "nothing", "the isocyanate, as a concentration is given as NCO", "give isocyanate, or the concentration of the substance"));
        }

        if (violations.Count > 0)
        {
            throw new UnusableException(violations);
        }
    }
}
