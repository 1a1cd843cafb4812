using FoamRules.Contracts.V1;
using FoamRules.Exchange.Calculating;
using Google.Protobuf;
using Grpc.Core;

namespace FoamRules.Service;

/// <summary>CalculationService: each method asks the calculation of its request.</summary>
public sealed class CalculationEndpoint : CalculationService.CalculationServiceBase
{
    /// <inheritdoc/>
    public override Task<DewPointResponse> DewPoint(DewPointRequest request, ServerCallContext context) => Answer<DewPointResponse>(request);

    /// <inheritdoc/>
    public override Task<ConvertUnitsResponse> ConvertUnits(ConvertUnitsRequest request, ServerCallContext context) => Answer<ConvertUnitsResponse>(request);

    /// <inheritdoc/>
    public override Task<PassHeatResponse> PassHeat(PassHeatRequest request, ServerCallContext context) => Answer<PassHeatResponse>(request);

    /// <inheritdoc/>
    public override Task<PourHeatResponse> PourHeat(PourHeatRequest request, ServerCallContext context) => Answer<PourHeatResponse>(request);

    /// <inheritdoc/>
    public override Task<CoolingTimeResponse> CoolingTime(CoolingTimeRequest request, ServerCallContext context) => Answer<CoolingTimeResponse>(request);

    /// <inheritdoc/>
    public override Task<DayResponse> Day(DayRequest request, ServerCallContext context) => Answer<DayResponse>(request);

    /// <inheritdoc/>
    public override Task<FillMassResponse> FillMass(FillMassRequest request, ServerCallContext context) => Answer<FillMassResponse>(request);

    /// <inheritdoc/>
    public override Task<RotationResponse> Rotation(RotationRequest request, ServerCallContext context) => Answer<RotationResponse>(request);

    /// <inheritdoc/>
    public override Task<TestShotsResponse> TestShots(TestShotsRequest request, ServerCallContext context) => Answer<TestShotsResponse>(request);

    /// <inheritdoc/>
    public override Task<MaterialResponse> Material(MaterialRequest request, ServerCallContext context) => Answer<MaterialResponse>(request);

    /// <inheritdoc/>
    public override Task<CavityPressureResponse> CavityPressure(CavityPressureRequest request, ServerCallContext context) => Answer<CavityPressureResponse>(request);

    /// <inheritdoc/>
    public override Task<PurgeResponse> Purge(PurgeRequest request, ServerCallContext context) => Answer<PurgeResponse>(request);

    /// <inheritdoc/>
    public override Task<RespiratorResponse> Respirator(RespiratorRequest request, ServerCallContext context) => Answer<RespiratorResponse>(request);

    /// <inheritdoc/>
    public override Task<NoiseDoseResponse> NoiseDose(NoiseDoseRequest request, ServerCallContext context) => Answer<NoiseDoseResponse>(request);

    /// <inheritdoc/>
    public override Task<WallLayersResponse> WallLayers(WallLayersRequest request, ServerCallContext context) => Answer<WallLayersResponse>(request);

    /// <inheritdoc/>
    public override Task<ThicknessSurveyResponse> ThicknessSurvey(ThicknessSurveyRequest request, ServerCallContext context) => Answer<ThicknessSurveyResponse>(request);

    /// <inheritdoc/>
    public override Task<SteelBridgeResponse> SteelBridge(SteelBridgeRequest request, ServerCallContext context) => Answer<SteelBridgeResponse>(request);

    private static Task<TResponse> Answer<TResponse>(IMessage request)
        where TResponse : class, IMessage
    {
        var answer = Calculators.For(request.Descriptor).Calculate(request);
        if (answer.Refusal is { } refusal)
        {
            throw Statuses.OutOfRange(refusal);
        }

        return answer.Response is TResponse response ? Task.FromResult(response) : throw Statuses.Impossible(answer.Violations);
    }
}
