using System.Net;
using FoamRules.Contracts.V1;
using Google.Protobuf;
using Grpc.Core;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>A gRPC service that gives a plan back as it came, or a report that was finished before, and does nothing else.</summary>
/// <param name="finished">The report.</param>
[BindServiceMethod(typeof(Echo), nameof(Bind))]
public class Echo(Report finished)
{
    private const string Service = "foamrules.benchmarks.Echo";

    private static readonly Marshaller<Plan> OfPlan = MarshallerOf(Plan.Parser);

    /// <summary>The call that gives the plan back.</summary>
    public static Method<Plan, Plan> Call { get; } = new(MethodType.Unary, Service, "Give", OfPlan, OfPlan);

    /// <summary>The call that takes a plan and gives the finished report: what a check would cost that takes no time.</summary>
    public static Method<Plan, Report> ReportCall { get; } = new(MethodType.Unary, Service, "GiveReport", OfPlan, MarshallerOf(Report.Parser));

    /// <summary>Says which method serves the call.</summary>
    public static void Bind(ServiceBinderBase binder, Echo? service)
    {
        binder.AddMethod(Call, service is null ? null : new UnaryServerMethod<Plan, Plan>(service.Give));
        binder.AddMethod(ReportCall, service is null ? null : new UnaryServerMethod<Plan, Report>(service.GiveReport));
    }

    /// <summary>The plan as it came.</summary>
    public virtual Task<Plan> Give(Plan plan, ServerCallContext context) => Task.FromResult(plan);

    /// <summary>The finished report, whatever the plan.</summary>
    public virtual Task<Report> GiveReport(Plan plan, ServerCallContext context) => Task.FromResult(finished);

    /// <summary>The service on a free port.</summary>
    /// <param name="finished">What <see cref="GiveReport"/> gives.</param>
    public static async Task<WebApplication> Start(Report finished)
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2));
        builder.Services.AddGrpc();
        builder.Services.AddSingleton(new Echo(finished));
        var service = builder.Build();
        service.MapGrpcService<Echo>();
        await service.StartAsync();
        return service;
    }

    private static Marshaller<T> MarshallerOf<T>(MessageParser<T> parser)
        where T : IMessage<T> => Marshallers.Create(
        static (message, context) =>
        {
            context.SetPayloadLength(message.CalculateSize());
            message.WriteTo(context.GetBufferWriter());
            context.Complete();
        },
        context => parser.ParseFrom(context.PayloadAsReadOnlySequence()));
}
