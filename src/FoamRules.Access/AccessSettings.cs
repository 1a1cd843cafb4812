using System.Net;
using System.Security.Cryptography.X509Certificates;
using FoamRules.Contracts.V1;
using Microsoft.IdentityModel.Tokens;

namespace FoamRules.Access;

/// <summary>Who may reach the service and how, checked. The default is this machine only, where callers are believed.</summary>
public sealed record AccessSettings
{
    /// <summary>The address on which the service listens.</summary>
    public IPAddress Listen { get; init; } = IPAddress.Loopback;

    /// <summary>The service's certificate; null: no TLS.</summary>
    public X509Certificate2? Certificate { get; init; }

    /// <summary>The API keys; null: none are taken.</summary>
    public ApiKeys? ApiKeys { get; init; }

    /// <summary>How tokens are checked; null: none are taken.</summary>
    public TokenScheme? Tokens { get; init; }

    /// <summary>The certificates by which machines are known.</summary>
    public IReadOnlyList<KnownCertificate> ClientCertificates { get; init; } = [];

    /// <summary>The authority whose certificates are believed by their subject; null: none.</summary>
    public X509Certificate2? ClientAuthority { get; init; }

    /// <summary>What one caller may ask at most.</summary>
    public CallerLimits Limits { get; init; } = new();

    /// <summary>True where callers must prove who they are; false: they are believed, on this machine only.</summary>
    public bool AsksForIdentity => ApiKeys is not null || Tokens is not null || ClientCertificates.Count > 0;
}

/// <summary>Tokens of an issuer: how they are checked, and which claims say what.</summary>
/// <param name="Checked">How they are checked.</param>
/// <param name="NameClaim">The claim that names the caller.</param>
/// <param name="RoleClaim">The claim that tells the roles.</param>
/// <param name="Roles">What the issuer calls the roles.</param>
public sealed record TokenScheme(TokenValidationParameters Checked, string NameClaim, string RoleClaim, IReadOnlyDictionary<string, Role> Roles);

/// <summary>A certificate by which a machine is known.</summary>
/// <param name="Thumbprint">SHA-256 of the certificate, in hexadecimal; null: it is known by its subject.</param>
/// <param name="Subject">The subject; null: it is known by its thumbprint.</param>
/// <param name="Name">The caller's name.</param>
/// <param name="Roles">The roles that it has.</param>
public sealed record KnownCertificate(string? Thumbprint, string? Subject, string Name, IReadOnlyList<Role> Roles);

/// <summary>What one caller may ask at most.</summary>
public sealed record CallerLimits
{
    /// <summary>Calls a minute, on average; 0: as many as one likes.</summary>
    public int CallsPerMinute { get; init; }

    /// <summary>Calls in a burst.</summary>
    public int Burst { get; init; } = 1;

    /// <summary>Calls at once.</summary>
    public int CallsAtOnce { get; init; } = 64;

    /// <summary>Calls that may wait for their turn.</summary>
    public int Waiting { get; init; } = 256;

    /// <summary>The longest time for a call.</summary>
    public TimeSpan LongestCall { get; init; } = TimeSpan.FromMinutes(2);

    /// <summary>The longest time for a stream.</summary>
    public TimeSpan LongestStream { get; init; } = TimeSpan.FromHours(1);

    /// <summary>Connections of all callers.</summary>
    public int Connections { get; init; } = 1000;

    /// <summary>How long a connection may stand still: before its first request, in a head or a body that has begun, as a rule over an answer that it does not take, and over a ping that it does not answer.</summary>
    public TimeSpan Standstill { get; init; } = TimeSpan.FromSeconds(10);
}
