using System.Net;
using FoamRules.Access;
using FoamRules.Testing;

namespace FoamRules.Service.Tests.Access;

/// <summary>What a service may be started with.</summary>
public sealed class SettingsTests
{
    [Fact]
    public async Task Others_cannot_reach_it_without_tls_and_a_way_to_prove_who_calls()
    {
        Assert.NotNull(AccessReader.Read(new AccessOptions(), out _));
        Assert.NotNull(AccessReader.Read(new AccessOptions { Listen = "::1" }, out _));
        Assert.Null(AccessReader.Read(new AccessOptions { Listen = "0.0.0.0" }, out var violations));
        Assert.Equal(["access.certificate", "access"], violations.Select(violation => violation.Path));
        // Whoever builds the service by hand is stopped, too.
        await Assert.ThrowsAsync<InvalidOperationException>(() => ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Access = new AccessSettings { Listen = IPAddress.Any } }).StartAsync(TestContext.Current.CancellationToken));
        await Assert.ThrowsAsync<InvalidOperationException>(() => ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Access = new AccessSettings { Listen = IPAddress.Any, Certificate = Guarded.Server } }).StartAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public void Everything_that_is_wrong_with_the_settings_is_said_at_once()
    {
        var options = new AccessOptions
        {
            Listen = "everywhere",
            Certificate = "no-such-file.pem",
            ApiKeys = [new ApiKeyOptions { Name = "", Roles = ["boss"], Hash = "foamrules_secret", Until = "some day" }],
            Tokens = new TokenOptions { Authority = "http://issuer.example", Roles = { ["admins"] = "boss" } },
            ClientCertificates = [new ClientCertificateOptions { Subject = "CN=tool", Name = "tool", Roles = ["office"] }, new ClientCertificateOptions { Name = "other", Roles = ["office"] }],
            Limits = new LimitOptions { CallsAtOnce = 0, CallSeconds = double.NaN },
        };
        Assert.Null(AccessReader.Read(options, out var violations));
        Assert.Equal(
        [
            "access.apiKeys[0].hash", "access.apiKeys[0].name", "access.apiKeys[0].roles", "access.apiKeys[0].until", "access.certificate",
            "access.clientCertificates", "access.clientCertificates[0].subject", "access.clientCertificates[1]", "access.limits.callSeconds", "access.limits.callsAtOnce",
            "access.listen", "access.tokens.audience", "access.tokens.authority", "access.tokens.issuer", "access.tokens.roles[admins]",
        ], violations.Select(violation => violation.Path).Order(StringComparer.Ordinal));
        Assert.All(violations, violation => Assert.DoesNotContain("secret", violation.ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public void A_new_key_is_never_the_same_and_only_its_hash_is_known_of_it()
    {
        var keys = Enumerable.Range(0, 100).Select(_ => ApiKey.Make()).ToList();
        Assert.Equal(100, keys.Distinct().Count());
        Assert.All(keys, key => Assert.Matches("^foamrules_[A-Za-z0-9_-]{43}$", key));
        var options = new AccessOptions { ApiKeys = [new ApiKeyOptions { Name = "tool", Roles = ["office"], Hash = ApiKey.HashOf(keys[0]) }] };
        Assert.Equal("tool", AccessReader.Read(options, out _)!.ApiKeys!.Find(keys[0], DateTimeOffset.UtcNow)!.Name);
        Assert.Null(AccessReader.Read(options, out _)!.ApiKeys!.Find(options.ApiKeys[0].Hash, DateTimeOffset.UtcNow));
    }
}
