using System.Globalization;
using System.Net;
using System.Security.Cryptography;
using System.Text;
using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Grpc.Core;
using Grpc.Health.V1;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace FoamRules.Service.Tests.Access;

/// <summary>Every way to prove who calls, and every way in which it fails.</summary>
public sealed class IdentityTests
{
    private const string Issuer = "https://issuer.example", Audience = "foamrules";
    private static readonly RSA IssuerKey = RSA.Create(2048);

    [Fact]
    public async Task A_key_opens_the_service_and_its_holder_is_who_acts()
    {
        var key = ApiKey.Make();
        await using var service = await Guarded.Start(Guarded.WithKeys((key, "Office tool", ["office"])));
        var answer = await service.Reviews().SubmitPlanAsync(Submission(), Shows("x-api-key", key));
        Assert.Equal(("Office tool", Role.Office, Identity.ApiKey), (answer.Receipt.Actor, answer.Receipt.Role, answer.Receipt.Identity));
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Shows("x-api-key", key[..^1])));
    }

    [Fact]
    public async Task Keys_are_changed_without_a_gap_and_a_slip_in_the_file_locks_nobody_out()
    {
        var (old, young, late) = (ApiKey.Make(), ApiKey.Make(), ApiKey.Make());
        var file = "";
        await using var service = await Guarded.Start(guarded =>
        {
            file = guarded.Write("keys.json", Entries((old, null)));
            return new AccessSettings { Certificate = Guarded.Server, ApiKeys = ApiKeys.Read([], file, out _) };
        });
        await List(service, Shows("x-api-key", old));
        Rewrite(Entries((old, null), (young, "2100-01-01T00:00:00Z"), (late, "2020-01-01T00:00:00Z")), 1);
        await List(service, Shows("x-api-key", old));
        await List(service, Shows("x-api-key", young));
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Shows("x-api-key", late)));
        Rewrite("[{ \"name\": ", 2);
        await List(service, Shows("x-api-key", young));
        Rewrite(Entries((young, null)), 3);
        await List(service, Shows("x-api-key", young));
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Shows("x-api-key", old)));

        static string Entries(params (string Key, string? Until)[] keys) =>
            "[" + string.Join(",", keys.Select(one => $$"""{"name":"tool","roles":["office"],"hash":"{{ApiKey.HashOf(one.Key)}}","until":"{{one.Until}}"}""")) + "]";

        void Rewrite(string text, int minute)
        {
            File.WriteAllText(file, text);
            File.SetLastWriteTimeUtc(file, DateTime.UtcNow.AddMinutes(minute));
        }
    }

    [Fact]
    public async Task Without_proof_only_the_health_answers()
    {
        await using var service = await Guarded.Start(Guarded.WithKeys((ApiKey.Make(), "tool", ["office"])));
        var channel = service.Channel();
        var methods = new[] { PlanCheckService.Descriptor, CalculationService.Descriptor, RuleCatalogService.Descriptor, ReviewService.Descriptor }
            .SelectMany(one => one.Methods.Select(method => $"/{one.FullName}/{method.Name}")).Append("/grpc.reflection.v1.ServerReflection/ServerReflectionInfo").Append("/foamrules.v1.NoSuchService/NoSuchMethod");
        foreach (var path in methods)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new ByteArrayContent([0, 0, 0, 0, 0]) };
            request.Content.Headers.ContentType = new("application/grpc");
            using var answer = await service.Http().SendAsync(request, TestContext.Current.CancellationToken);
            Assert.Equal(("16", path), (answer.Headers.GetValues("grpc-status").Single(), path));
        }

        foreach (var path in new[] { "/", "/metrics", "/v1/plans:check" })
        {
            using var answer = await service.Http().GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal((HttpStatusCode.Unauthorized, path), (answer.StatusCode, path));
            await Guarded.IsProblem(answer, "NOT_PROVEN", "UNAUTHENTICATED");
        }

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest(), cancellationToken: TestContext.Current.CancellationToken)).Status);
        using var ready = await service.Http().GetAsync("/healthz/ready", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, ready.StatusCode);
    }

    [Fact]
    public async Task A_token_of_the_issuer_opens_the_service_and_any_other_does_not()
    {
        await using var service = await Guarded.Start(guarded => AccessReader.Read(new AccessOptions
        {
            Tokens = new TokenOptions
            {
                Issuer = Issuer,
                Audience = Audience,
                KeyFiles = [guarded.Write("issuer.pem", IssuerKey.ExportSubjectPublicKeyInfoPem())],
                Roles = { ["foam-safety"] = "safety-officer", ["foam-read"] = "reader" },
            },
        }, out _)! with
        { Certificate = Guarded.Server });
        var answer = await service.Reviews().SubmitPlanAsync(Submission(), Bearer(Token()));
        Assert.Equal(("Sam Safety", Role.SafetyOfficer, Identity.Token), (answer.Receipt.Actor, answer.Receipt.Role, answer.Receipt.Identity));

        using var other = RSA.Create(2048);
        var publicKey = Encoding.UTF8.GetBytes(IssuerKey.ExportSubjectPublicKeyInfoPem());
        var parts = Token().Split('.');
        var unsigned = Base64UrlEncoder.Encode("""{"alg":"none","typ":"JWT"}""") + "." + parts[1] + ".";
        var forged = parts[0] + "." + Base64UrlEncoder.Encode(Base64UrlEncoder.Decode(parts[1]).Replace("foam-safety", "foam-read", StringComparison.Ordinal)) + "." + parts[2];
        (string What, string Token)[] refused =
        [
            ("another issuer", Token(issuer: "https://other.example")),
            ("another audience", Token(audience: "another service")),
            ("over", Token(expires: DateTime.UtcNow.AddHours(-1))),
            ("another key", Token(key: new SigningCredentials(new RsaSecurityKey(other), SecurityAlgorithms.RsaSha256))),
            ("the public key as a secret", Token(key: new SigningCredentials(new SymmetricSecurityKey(publicKey), SecurityAlgorithms.HmacSha256))),
            ("unsigned", unsigned),
            ("forged", forged),
            ("nameless", Token(name: "")),
            ("nonsense", "nonsense"),
        ];
        foreach (var (what, token) in refused)
        {
            var error = await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Bearer(token)));
            Assert.True(!error.Status.Detail.Contains(token, StringComparison.Ordinal), what);
        }

        // A role that the issuer's words do not give: known, and may do nothing.
        await Guarded.Refused(StatusCode.PermissionDenied, "ROLE_NOT_CHOSEN", () => List(service, Bearer(Token(roles: ["something else"]))));
    }

    [Fact]
    public async Task The_keys_of_an_issuer_are_found_by_discovery_and_a_token_of_another_key_is_refused()
    {
        var key = new RsaSecurityKey(IssuerKey) { KeyId = "first" };
        var published = JsonWebKeyConverter.ConvertFromRSASecurityKey(new RsaSecurityKey(IssuerKey.ExportParameters(includePrivateParameters: false)) { KeyId = "first" });
        using var issuer = new IssuerSite(new()
        {
            ["/.well-known/openid-configuration"] = $$"""{ "issuer": "{{Issuer}}", "jwks_uri": "{{Issuer}}/keys" }""",
            ["/keys"] = $$"""{ "keys": [{ "kty": "RSA", "use": "sig", "kid": "first", "n": "{{published.N}}", "e": "{{published.E}}" }] }""",
        });
        using var toIssuer = new HttpClient(issuer);
        await using var service = await Guarded.Start(AccessReader.Read(new AccessOptions
        {
            Tokens = new TokenOptions { Issuer = Issuer, Audience = Audience, Authority = Issuer + "/", Roles = { ["foam-safety"] = "safety-officer" } },
        }, out _, toIssuer)! with
        { Certificate = Guarded.Server });
        await List(service, Bearer(Token(key: new SigningCredentials(key, SecurityAlgorithms.RsaSha256))));
        await List(service, Bearer(Token(key: new SigningCredentials(key, SecurityAlgorithms.RsaSha256))));
        Assert.Equal(["/.well-known/openid-configuration", "/keys"], issuer.Asked);

        using var other = RSA.Create(2048);
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN",
            () => List(service, Bearer(Token(key: new SigningCredentials(new RsaSecurityKey(other) { KeyId = "first" }, SecurityAlgorithms.RsaSha256)))));
    }

    [Fact]
    public async Task Where_the_issuer_does_not_answer_nobody_is_let_in()
    {
        using var issuer = new IssuerSite([]);
        using var toIssuer = new HttpClient(issuer);
        await using var service = await Guarded.Start(AccessReader.Read(new AccessOptions { Tokens = new TokenOptions { Issuer = Issuer, Audience = Audience, Authority = Issuer } }, out _, toIssuer)! with
        { Certificate = Guarded.Server });
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Bearer(Token())));
    }

    [Fact]
    public async Task A_machine_is_known_by_its_certificate_and_a_strange_one_is_not()
    {
        using var authority = Certificates.Make("CN=house authority", authority: true);
        using var strangers = Certificates.Make("CN=house authority", authority: true);
        using var pinned = Certificates.Make("CN=robot");
        using var named = Certificates.Make("CN=office-tool", by: authority);
        using var impostor = Certificates.Make("CN=office-tool", by: strangers);
        using var unknown = Certificates.Make("CN=unknown", by: authority);
        using var over = Certificates.Make("CN=late", validDays: -1);
        await using var service = await Guarded.Start(new AccessSettings
        {
            Certificate = Guarded.Server,
            ClientAuthority = authority,
            ClientCertificates =
            [
                new KnownCertificate(pinned.GetCertHashString(HashAlgorithmName.SHA256).ToLowerInvariant(), null, "Robot", [Role.Reader]),
                new KnownCertificate(over.GetCertHashString(HashAlgorithmName.SHA256).ToLowerInvariant(), null, "Late robot", [Role.Reader]),
                new KnownCertificate(null, "CN=office-tool", "Office tool", [Role.Office]),
            ],
        });
        var answer = await service.Reviews(named).SubmitPlanAsync(Submission());
        Assert.Equal(("Office tool", Identity.Certificate), (answer.Receipt.Actor, answer.Receipt.Identity));
        await service.Reviews(pinned).ListReviewsAsync(new ListReviewsRequest());
        foreach (var strange in new[] { impostor, unknown, over, null })
        {
            await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => service.Reviews(strange).ListReviewsAsync(new ListReviewsRequest()).ResponseAsync);
        }
    }

    [Fact]
    public async Task The_metadata_may_not_say_more_than_the_identity()
    {
        var (office, both) = (ApiKey.Make(), ApiKey.Make());
        await using var service = await Guarded.Start(Guarded.WithKeys((office, "Olga Öffice", ["office"]), (both, "Sam", ["crew-lead", "safety-officer"])));
        await List(service, new Metadata { { "x-api-key", office }, { "x-actor-bin", Encoding.UTF8.GetBytes("Olga Öffice") }, { "x-role", "office" } });
        await Guarded.Refused(StatusCode.PermissionDenied, "NOT_YOUR_NAME", () => List(service, new Metadata { { "x-api-key", office }, { "x-actor", "Sam" } }));
        await Guarded.Refused(StatusCode.PermissionDenied, "NOT_YOUR_ROLE", () => List(service, new Metadata { { "x-api-key", office }, { "x-role", "safety-officer" } }));
        await Guarded.Refused(StatusCode.PermissionDenied, "NOT_YOUR_ROLE", () => List(service, new Metadata { { "x-api-key", office }, { "cookie", "foamrules-role=safety-officer" } }));
        await Guarded.Refused(StatusCode.PermissionDenied, "ROLE_NOT_CHOSEN", () => List(service, Shows("x-api-key", both)));
        var refused = await Guarded.Refused(StatusCode.PermissionDenied, "ROLE_MAY_NOT",
            () => service.Reviews().SignOffAsync(new SignOffRequest(), new Metadata { { "x-api-key", both }, { "x-role", "crew-lead" } }).ResponseAsync);
        Assert.Contains("safety officer", refused.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task No_key_and_no_token_is_ever_logged()
    {
        var key = ApiKey.Make();
        await using var service = await Guarded.Start(guarded => AccessReader.Read(new AccessOptions
        {
            ApiKeys = [new ApiKeyOptions { Name = "tool", Roles = ["office"], Hash = ApiKey.HashOf(key) }],
            Tokens = new TokenOptions { Issuer = Issuer, Audience = Audience, KeyFiles = [guarded.Write("issuer.pem", IssuerKey.ExportSubjectPublicKeyInfoPem())] },
        }, out _)! with
        { Certificate = Guarded.Server });
        var (wrong, token) = (ApiKey.Make(), Token(audience: "another service"));
        await List(service, Shows("x-api-key", key));
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Shows("x-api-key", wrong)));
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, Bearer(token)));
        var log = string.Join('\n', service.Log.Select(one => one.RenderMessage(CultureInfo.InvariantCulture) + string.Join(' ', one.Properties.Values) + one.Exception));
        Assert.Contains("refused: \"NOT_PROVEN\"", log, StringComparison.Ordinal);
        Assert.All(new[] { key, wrong, token, token.Split('.')[2], ApiKey.HashOf(key) }, secret => Assert.DoesNotContain(secret, log, StringComparison.Ordinal));
    }

    // What an issuer publishes, without a network.
    private sealed class IssuerSite(Dictionary<string, string> published) : HttpMessageHandler
    {
        public List<string> Asked { get; } = [];

        protected override Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            var path = request.RequestUri!.AbsolutePath;
            Asked.Add(path);
            return Task.FromResult(published.TryGetValue(path, out var text)
                ? new HttpResponseMessage(HttpStatusCode.OK) { Content = new StringContent(text, Encoding.UTF8, "application/json") }
                : new HttpResponseMessage(HttpStatusCode.NotFound));
        }
    }

    private static SubmitPlanRequest Submission()
    {
        var read = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock-quote.yaml")), "plan", new ReadOptions(DateTimeOffset.UtcNow));
        return new SubmitPlanRequest { IdempotencyKey = "k", Plan = read.Message };
    }

    private static Metadata Shows(string header, string value) => new() { { header, value } };

    private static Metadata Bearer(string token) => Shows("authorization", $"Bearer {token}");

    private static Task<ListReviewsResponse> List(Guarded service, Metadata metadata) => service.Reviews().ListReviewsAsync(new ListReviewsRequest(), metadata).ResponseAsync;

    private static string Token(string issuer = Issuer, string audience = Audience, DateTime? expires = null, SigningCredentials? key = null, string name = "Sam Safety", string[]? roles = null) =>
        new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
        {
            Issuer = issuer,
            Audience = audience,
            NotBefore = DateTime.UtcNow.AddHours(-2),
            IssuedAt = DateTime.UtcNow.AddHours(-2),
            Expires = expires ?? DateTime.UtcNow.AddHours(1),
            SigningCredentials = key ?? new SigningCredentials(new RsaSecurityKey(IssuerKey), SecurityAlgorithms.RsaSha256),
            Claims = new Dictionary<string, object> { ["name"] = name, ["roles"] = roles ?? ["foam-safety"] },
        });
}
