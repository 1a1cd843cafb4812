using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Exchange.Calculating;
using FoamRules.Testing;
using FoamRules.Text;
using Google.Protobuf;
using Google.Rpc;
using Grpc.Core;

namespace FoamRules.Service.Tests;

/// <summary>The calculations over a real connection.</summary>
public sealed class CalculationTests(RunningService service) : IClassFixture<RunningService>
{
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(30);

    public static TheoryData<string> Names { get; } = [.. CalculationExamples.Names];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_calculation_answers_over_the_wire_what_the_engine_answers(string name)
    {
        var calculator = Calculators.Find(name)!;
        var request = calculator.Request.Parser.ParseFrom(ByteString.Empty);
        Assert.Empty(MessageReader.Read(DataText.Read(CalculationExamples.TextOf(name), name).Root!, request, name));
        Assert.Equal(calculator.Calculate(request).Response, Call(request));
    }

    [Fact]
    public async Task Outside_its_range_a_formula_is_answered_with_out_of_range_and_the_range()
    {
        var request = new DewPointRequest { Air = new Temperature { DegreesCelsius = 250 }, RelativeHumidity = new Ratio { Percent = 50 } };
        var error = await Assert.ThrowsAsync<RpcException>(async () => await Client.DewPointAsync(request, deadline: DateTime.UtcNow + Patience));
        Assert.Equal(StatusCode.OutOfRange, error.StatusCode);
        Assert.Contains("−100 to 200 °C", error.Status.Detail, StringComparison.Ordinal);
        var info = error.GetRpcStatus()!.GetDetail<ErrorInfo>()!;
        Assert.Equal(("CALCULATION_OUT_OF_RANGE", "air temperature", "250 °C", "−100 to 200 °C"), (info.Reason, info.Metadata["input"], info.Metadata["found"], info.Metadata["allowed"]));
        Assert.NotEmpty(info.Metadata["why"]);
        var said = await Assert.ThrowsAsync<RpcException>(async () => await Client.DewPointAsync(request, new Metadata { { "accept-language", "es" } }, DateTime.UtcNow + Patience));
        Assert.Contains("temperatura del aire: se encontró 250 °C; se permite: −100 a 200 °C;", said.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_impossible_is_an_invalid_argument_with_every_field()
    {
        var request = new DewPointRequest
        {
            Air = new Temperature { DegreesCelsius = double.NaN },
            RelativeHumidity = new Ratio { Percent = -5 },
            HumidityOver = (HumidityReference)9,
            Surface = new Temperature(),
        };
        var error = await Assert.ThrowsAsync<RpcException>(async () => await Client.DewPointAsync(request, deadline: DateTime.UtcNow + Patience));
        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        var fields = error.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations.Select(violation => violation.Field);
        Assert.Equal(["air.degrees_celsius", "relative_humidity.percent", "humidity_over", "surface"], fields);
    }

    [Fact]
    public async Task An_empty_request_says_what_is_missing()
    {
        var error = await Assert.ThrowsAsync<RpcException>(async () => await Client.SteelBridgeAsync(new SteelBridgeRequest(), deadline: DateTime.UtcNow + Patience));
        var fields = error.GetRpcStatus()!.GetDetail<BadRequest>()!.FieldViolations.Select(violation => violation.Field);
        Assert.Equal(["steel_area", "conductivity", "in_insulation", "inside", "outside"], fields);
    }

    private CalculationService.CalculationServiceClient Client => new(service.Channel);

    private IMessage Call(IMessage request)
    {
        var method = typeof(CalculationService.CalculationServiceClient).GetMethod(
            request.Descriptor.Name.Replace("Request", "", StringComparison.Ordinal), [request.GetType(), typeof(CallOptions)])!;
        return (IMessage)method.Invoke(Client, [request, new CallOptions(deadline: DateTime.UtcNow + Patience)])!;
    }
}
