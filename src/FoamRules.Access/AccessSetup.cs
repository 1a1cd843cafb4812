using System.Net;
using System.Security.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.Server.Kestrel.Core;
using Microsoft.AspNetCore.Server.Kestrel.Https;
using Microsoft.Extensions.DependencyInjection;

namespace FoamRules.Access;

/// <summary>Puts the gate and its limits into a web application.</summary>
public static class AccessSetup
{
    // Of a body that is sent, and of an answer that is taken.
    private const double LeastBytesPerSecond = 240;

    /// <summary>Listens: with TLS both HTTP/1.1 and HTTP/2 on each port, as client and server agree; without it one of them, on this machine only.</summary>
    /// <param name="kestrel">The server.</param>
    /// <param name="settings">Who may reach the service and how.</param>
    /// <param name="grpcPort">The port for gRPC.</param>
    /// <param name="webPort">The port for pages and HTTP with JSON; null: there is none of its own.</param>
    /// <param name="mostBytes">The largest request that is taken.</param>
    /// <exception cref="InvalidOperationException">Others could reach the service without TLS or without proving who they are.</exception>
    public static void Listen(this KestrelServerOptions kestrel, AccessSettings settings, int grpcPort, int? webPort, int mostBytes)
    {
        if (AccessReader.OnTheNetwork(settings).FirstOrDefault() is { } wrong)
        {
            throw new InvalidOperationException(wrong.ToString());
        }

        kestrel.AddServerHeader = false;
        kestrel.Limits.MaxConcurrentConnections = settings.Limits.Connections;
        // gRPC says itself that a message is too large; this is what is too large whatever it is.
        kestrel.Limits.MaxRequestBodySize = 2L * mostBytes;
        kestrel.Limits.MaxRequestHeadersTotalSize = 16 * 1024;
        kestrel.Limits.Http2.MaxStreamsPerConnection = 100;
        var standstill = settings.Limits.Standstill;
        kestrel.Limits.RequestHeadersTimeout = standstill;
        kestrel.Limits.MinRequestBodyDataRate = new MinDataRate(LeastBytesPerSecond, standstill);
        kestrel.Limits.MinResponseDataRate = new MinDataRate(LeastBytesPerSecond, standstill);
        // A connection whose other end is gone, or takes no notice, is found out and closed.
        kestrel.Limits.Http2.KeepAlivePingDelay = standstill;
        kestrel.Limits.Http2.KeepAlivePingTimeout = standstill;
        On(grpcPort, HttpProtocols.Http2);
        if (webPort is { } web && web != (grpcPort == 0 ? -1 : grpcPort))
        {
            On(web, HttpProtocols.Http1);
        }

        void On(int port, HttpProtocols withoutTls) => kestrel.Listen(new IPEndPoint(settings.Listen, port), listen =>
        {
            RequestInTime.Within(settings.Limits, listen);
            if (settings.Certificate is not { } certificate)
            {
                listen.Protocols = withoutTls;
                return;
            }

            listen.Protocols = HttpProtocols.Http1AndHttp2;
            listen.UseHttps(https =>
            {
                https.ServerCertificate = certificate;
                https.SslProtocols = SslProtocols.Tls12 | SslProtocols.Tls13;
                https.ClientCertificateMode = settings.ClientCertificates.Count > 0 ? ClientCertificateMode.AllowCertificate : ClientCertificateMode.NoCertificate;
                // Whether it is believed is for the gate to say, which can answer in the protocol's own words.
                https.ClientCertificateValidation = (_, _, _) => true;
            });
        });
    }

    /// <summary>Adds what the gate needs.</summary>
    public static IServiceCollection AddAccess(this IServiceCollection services, AccessSettings settings)
    {
        services.AddSingleton(settings);
        // The keys live as long as the service: no file is written, and a form or a sign-in from before a restart is asked for again.
        services.AddDataProtection().UseEphemeralDataProtectionProvider();
        services.AddSingleton<BrowserKeys>();
        services.AddSingleton<Prover>();
        services.AddSingleton<Gate>();
        services.AddRateLimiter(options => Limiting.Set(options, settings.Limits));
        services.AddRequestTimeouts(options => options.DefaultPolicy = new RequestTimeoutPolicy { Timeout = settings.Limits.LongestCall, TimeoutStatusCode = StatusCodes.Status504GatewayTimeout });
        return services;
    }

    /// <summary>Puts the gate before everything that is mapped.</summary>
    public static WebApplication UseAccess(this WebApplication service)
    {
        service.Use(next => context =>
        {
            RequestInTime.Came(context);
            return next(context);
        });
        service.UseRouting();
        service.UseMiddleware<SecurityHeaders>();
        service.UseMiddleware<Gate>();
        service.UseRateLimiter();
        service.UseWhen(Refusal.IsGrpc, calls => calls.Use(CutShort.Run));
        // gRPC keeps its own deadlines, which the gate has capped.
        service.UseWhen(context => !Refusal.IsGrpc(context), web => web.UseRequestTimeouts());
        return service;
    }
}
