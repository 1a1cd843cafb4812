using System.Security.Cryptography.X509Certificates;
using Grpc.Core;
using Grpc.Core.Interceptors;
using Grpc.Net.Client;

namespace FoamRules.Cli.Commands;

/// <summary>
/// The way to a service. What proves who calls comes from the environment, never from the command line, which others on the
/// machine can read: FOAMRULES_API_KEY, or FOAMRULES_TOKEN; FOAMRULES_SERVER_CA names the PEM file of a house's own authority.
/// </summary>
internal static class ServerChannel
{
    /// <summary>True where something that proves who calls is given.</summary>
    public static bool HasProof => Given("FOAMRULES_API_KEY") is not null || Given("FOAMRULES_TOKEN") is not null;

    /// <summary>Opens it.</summary>
    public static GrpcChannel Open(Uri server)
    {
        if (Given("FOAMRULES_SERVER_CA") is not { } file)
        {
            return GrpcChannel.ForAddress(server);
        }

        var handler = new SocketsHttpHandler();
        handler.SslOptions.CertificateChainPolicy = new X509ChainPolicy { TrustMode = X509ChainTrustMode.CustomRootTrust, RevocationMode = X509RevocationMode.NoCheck };
        handler.SslOptions.CertificateChainPolicy.CustomTrustStore.Add(X509CertificateLoader.LoadCertificateFromFile(file));
        return GrpcChannel.ForAddress(server, new GrpcChannelOptions { HttpHandler = handler, DisposeHttpClient = true });
    }

    /// <summary>The calls of a channel, with what proves who calls; over TLS, or within this machine, only.</summary>
    public static CallInvoker Calls(GrpcChannel channel, Uri server) => channel.Intercept(metadata =>
    {
        if (server.Scheme != Uri.UriSchemeHttps && !server.IsLoopback)
        {
            return metadata;
        }

        if (Given("FOAMRULES_API_KEY") is { } key)
        {
            metadata.Add("x-api-key", key);
        }
        else if (Given("FOAMRULES_TOKEN") is { } token)
        {
            metadata.Add("authorization", $"Bearer {token}");
        }

        return metadata;
    });

    private static string? Given(string variable) => Environment.GetEnvironmentVariable(variable) is { Length: > 0 } given ? given : null;
}
