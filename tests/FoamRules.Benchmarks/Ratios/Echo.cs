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

/// <summary>A gRPC service that gives a plan back as it came, and does nothing else.</summary>
[BindServiceMethod(typeof(Echo), nameof(Bind))]
public class Echo
{
    private static readonly Marshaller<Plan> Message = Marshallers.Create(
        static (plan, context) =>
        {
            context.SetPayloadLength(plan.CalculateSize());
            plan.WriteTo(context.GetBufferWriter());
            context.Complete();
        },
        static context => Plan.Parser.ParseFrom(context.PayloadAsReadOnlySequence()));

    /// <summary>The call.</summary>
    public static Method<Plan, Plan> Call { get; } = new(MethodType.Unary, "foamrules.benchmarks.Echo", "Give", Message, Message);

    /// <summary>Says which method serves the call.</summary>
    public static void Bind(ServiceBinderBase binder, Echo? service) =>
        binder.AddMethod(Call, service is null ? null : new UnaryServerMethod<Plan, Plan>(service.Give));

    /// <summary>The plan as it came.</summary>
    public virtual Task<Plan> Give(Plan plan, ServerCallContext context) => Task.FromResult(plan);

    /// <summary>The service on a free port.</summary>
    public static async Task<WebApplication> Start()
    {
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.ConfigureKestrel(kestrel => kestrel.Listen(IPAddress.Loopback, 0, listen => listen.Protocols = HttpProtocols.Http2));
        builder.Services.AddGrpc();
        builder.Services.AddSingleton<Echo>();
        var service = builder.Build();
        service.MapGrpcService<Echo>();
        await service.StartAsync();
        return service;
    }
}
