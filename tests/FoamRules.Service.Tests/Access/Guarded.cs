using System.Collections.Concurrent;
using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text.Json.Nodes;
using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Records.Store;
using FoamRules.Testing;
using Grpc.Core;
using Grpc.Net.Client;
using Microsoft.AspNetCore.Builder;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests.Access;

/// <summary>A service with a gate, a store and its log kept, and clients that show what they are given.</summary>
internal sealed class Guarded : IAsyncDisposable
{
    public static readonly X509Certificate2 Server = Certificates.Make("CN=localhost", forServer: true);

    private readonly TemporaryFolder _folder = new();
    private readonly List<IDisposable> _clients = [];
    private WebApplication? _service;

    public ConcurrentQueue<LogEvent> Log { get; } = new();

    public string Folder => _folder.Path;

    /// <summary>Its first address; with TLS all doors are there.</summary>
    public Uri Address => new(_service!.Urls.First());

    /// <summary>The address for browsers, where there is one of its own.</summary>
    public Uri Web => new(_service!.Urls.Last());

    public static async Task<Guarded> Start(Func<Guarded, AccessSettings> access, int? webPort = null, TimeProvider? clock = null)
    {
        var guarded = new Guarded();
        var records = RecordStore.At(Path.Combine(guarded.Folder, "records.db"), TimeProvider.System);
        await records.Prepare(TestContext.Current.CancellationToken);
        guarded._service = ServiceHost.Build(new ServiceSettings
        {
            Engine = Repository.Engine,
            Log = new Sink(guarded.Log),
            Records = records,
            Access = access(guarded),
            WebPort = webPort,
            Clock = clock,
        });
        await guarded._service.StartAsync(TestContext.Current.CancellationToken);
        return guarded;
    }

    public static Task<Guarded> Start(AccessSettings access, int? webPort = null) => Start(_ => access, webPort);

    /// <summary>With TLS and these keys.</summary>
    public static AccessSettings WithKeys(params (string Key, string Name, string[] Roles)[] keys) => new()
    {
        Certificate = Server,
        ApiKeys = ApiKeys.Read([.. keys.Select(one => new ApiKeyOptions { Name = one.Name, Roles = [.. one.Roles], Hash = ApiKey.HashOf(one.Key) })], null, out _),
    };

    /// <summary>A file of the test.</summary>
    public string Write(string name, string text)
    {
        var file = Path.Combine(Folder, name);
        File.WriteAllText(file, text);
        return file;
    }

    /// <summary>A connection that believes this service's certificate and shows one of its own. It keeps cookies, and follows no redirect.</summary>
    public HttpClient Http(X509Certificate2? own = null)
    {
        var handler = new SocketsHttpHandler { AllowAutoRedirect = false };
        handler.SslOptions.RemoteCertificateValidationCallback = (_, certificate, _, _) => certificate?.GetCertHashString() == Server.GetCertHashString();
        if (own is not null)
        {
            handler.SslOptions.ClientCertificates = [own];
            handler.SslOptions.LocalCertificateSelectionCallback = (_, _, _, _, _) => own;
        }

        var client = new HttpClient(handler) { BaseAddress = Address, DefaultRequestVersion = HttpVersion.Version20, DefaultVersionPolicy = HttpVersionPolicy.RequestVersionExact };
        _clients.Add(client);
        return client;
    }

    public GrpcChannel Channel(X509Certificate2? own = null)
    {
        var channel = GrpcChannel.ForAddress(Address, new GrpcChannelOptions { HttpClient = Http(own) });
        _clients.Add(channel);
        return channel;
    }

    public ReviewService.ReviewServiceClient Reviews(X509Certificate2? own = null) => new(Channel(own));

    public static async Task<RpcException> Refused(StatusCode code, string reason, Func<Task> call)
    {
        var error = await Assert.ThrowsAsync<RpcException>(call);
        Assert.Equal((code, reason), (error.StatusCode, error.GetRpcStatus()?.GetDetail<Google.Rpc.ErrorInfo>()?.Reason ?? error.Status.Detail));
        return error;
    }

    /// <summary>The answer is a problem like those of calls that fail behind the gate.</summary>
    public static async Task IsProblem(HttpResponseMessage answer, string reason, string code)
    {
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!.AsObject();
        Assert.Equal(($"urn:foamrules:problem:{reason.ToLowerInvariant().Replace('_', '-')}", (int)answer.StatusCode, code, reason),
            ((string)problem["type"]!, (int)problem["status"]!, (string)problem["code"]!, (string)problem["reason"]!));
        Assert.All(["title", "detail"], name => Assert.NotEqual("", (string)problem[name]!));
    }

    public async ValueTask DisposeAsync()
    {
        _clients.ForEach(client => client.Dispose());
        await _service!.DisposeAsync();
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        _folder.Dispose();
    }

    private sealed class Sink(ConcurrentQueue<LogEvent> log) : ILogEventSink
    {
        public void Emit(LogEvent logEvent) => log.Enqueue(logEvent);
    }
}

/// <summary>Certificates that live as long as the test.</summary>
internal static class Certificates
{
    public static X509Certificate2 Make(string subject, bool forServer = false, X509Certificate2? by = null, bool authority = false, int validDays = 1)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(subject, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(authority, false, 0, true));
        if (!authority)
        {
            request.CertificateExtensions.Add(new X509EnhancedKeyUsageExtension([new Oid(forServer ? "1.3.6.1.5.5.7.3.1" : "1.3.6.1.5.5.7.3.2")], false));
        }

        if (forServer)
        {
            var names = new SubjectAlternativeNameBuilder();
            names.AddDnsName("localhost");
            names.AddIpAddress(IPAddress.Loopback);
            request.CertificateExtensions.Add(names.Build());
        }

        var from = DateTimeOffset.UtcNow.AddDays(-3);
        // An authority outlives what it signs a moment later.
        var until = DateTimeOffset.UtcNow.AddDays(authority ? validDays + 1 : validDays);
        if (by is null)
        {
            return request.CreateSelfSigned(from, until);
        }

        using var signed = request.Create(by, from, until, RandomNumberGenerator.GetBytes(8));
        return signed.CopyWithPrivateKey(key);
    }
}
