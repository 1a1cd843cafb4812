using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>All calculations that can be asked by name; the service and the command line know no others.</summary>
public static class Calculators
{
    private static readonly Dictionary<MessageDescriptor, Calculator> ByRequest;

    static Calculators() => ByRequest = All.ToDictionary(calculator => calculator.Request);

    /// <summary>All of them, in the order of the contract.</summary>
    public static IReadOnlyList<Calculator> All { get; } =
    [
        Calculator.Of<Contract.DewPointRequest>("dew-point", DewPointCalculator.Run),
        Calculator.Of<Contract.ConvertUnitsRequest>("convert-units", ConvertUnitsCalculator.Run),
        Calculator.Of<Contract.PassHeatRequest>("pass-heat", PassHeatCalculator.Run),
        Calculator.Of<Contract.PourHeatRequest>("pour-heat", PourHeatCalculator.Run),
        Calculator.Of<Contract.CoolingTimeRequest>("cooling-time", CoolingTimeCalculator.Run),
        Calculator.Of<Contract.DayRequest>("day", DayCalculator.Run),
        Calculator.Of<Contract.FillMassRequest>("fill-mass", FillMassCalculator.Run),
        Calculator.Of<Contract.RotationRequest>("rotation", RotationCalculator.Run),
        Calculator.Of<Contract.TestShotsRequest>("test-shots", TestShotsCalculator.Run),
        Calculator.Of<Contract.MaterialRequest>("material", MaterialCalculator.Run),
        Calculator.Of<Contract.CavityPressureRequest>("cavity-pressure", CavityPressureCalculator.Run),
        Calculator.Of<Contract.PurgeRequest>("purge", PurgeCalculator.Run),
        Calculator.Of<Contract.RespiratorRequest>("respirator", RespiratorCalculator.Run),
        Calculator.Of<Contract.NoiseDoseRequest>("noise-dose", NoiseDoseCalculator.Run),
        Calculator.Of<Contract.WallLayersRequest>("wall-layers", WallLayersCalculator.Run),
        Calculator.Of<Contract.ThicknessSurveyRequest>("thickness-survey", ThicknessSurveyCalculator.Run),
        Calculator.Of<Contract.SteelBridgeRequest>("steel-bridge", SteelBridgeCalculator.Run),
    ];

    /// <summary>The calculation that a message asks for.</summary>
    /// <exception cref="KeyNotFoundException">It is no request for a calculation.</exception>
    public static Calculator For(MessageDescriptor request) => ByRequest[request];

    /// <summary>The calculation of a name; null where there is none.</summary>
    public static Calculator? Find(string name) => All.FirstOrDefault(calculator => calculator.Name == name);
}
