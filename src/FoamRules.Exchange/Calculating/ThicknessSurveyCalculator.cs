using FoamRules.Calculations;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Calculating;

/// <summary>What depth readings of finished foam say.</summary>
internal static class ThicknessSurveyCalculator
{
    public static Contract.ThicknessSurveyResponse Run(Contract.ThicknessSurveyRequest request, Working working)
    {
        var result = working.Take(ThicknessSurvey.Summarize(
            [.. request.Readings.Select(reading => reading.Quantity())],
            request.Area.Quantity(),
            new ThicknessSettings(
                Enum.Parse<ThicknessTest>(request.AcceptanceTest.ToString()),
                request.Confidence.Quantity(),
                request.Precision.Quantity(),
                request.LeastReadings,
                request.AreaPerReading.Quantity())));
        var response = new Contract.ThicknessSurveyResponse
        {
            Readings = result.Readings,
            Mean = result.Mean.Message(),
            Minimum = result.Minimum.Message(),
            Maximum = result.Maximum.Message(),
            StandardDeviation = result.StandardDeviation.Message(),
            LowerBoundOfMean = result.LowerBoundOfMean.Message(),
            ReadingsForArea = result.ReadingsForArea,
            EnoughForArea = result.EnoughForArea,
            AcceptanceTest = request.AcceptanceTest,
            TestedValue = result.TestedValue.Message(),
        };
        if (result.ReadingsForPrecision is { } forPrecision)
        {
            response.ReadingsForPrecision = forPrecision;
        }

        return response;
    }
}
