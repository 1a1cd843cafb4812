using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using FoamRules.Contracts.V1;
using Microsoft.AspNetCore.Http;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;
using Said = FoamRules.Model.Said;

namespace FoamRules.Access;

/// <summary>Proves who calls: by an API key, by a token, or by the certificate of the connection.</summary>
/// <param name="settings">What is taken.</param>
/// <param name="browsers">The keys that browsers keep.</param>
/// <param name="clock">The clock by which keys and certificates run out.</param>
public sealed class Prover(AccessSettings settings, BrowserKeys browsers, TimeProvider clock)
{
    private const string Bearer = "Bearer ";
    private static readonly JsonWebTokenHandler Tokens = new() { MapInboundClaims = false };

    /// <summary>Who calls, or why that is not proven. What was shown is never repeated.</summary>
    public async Task<(ProvenIdentity? Identity, Said WhyNot)> Prove(HttpContext context)
    {
        var headers = context.Request.Headers;
        if (headers["x-api-key"].FirstOrDefault() is { } key)
        {
            return ByKey(key);
        }

        if (headers.Authorization.FirstOrDefault() is { } authorization)
        {
            return settings.Tokens is { } scheme && authorization.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase)
                ? await ByToken(authorization[Bearer.Length..].Trim(), scheme).ConfigureAwait(false)
                : (null, "this kind of authorization is not taken");
        }

        if (context.Connection.ClientCertificate is { } certificate)
        {
            return ByCertificate(certificate);
        }

        return browsers.KeyOf(context) is { } kept
            ? ByKey(kept)
            : (null, $"nothing proves who calls; taken are {Said.Join(", ", Taken())}");
    }

    /// <summary>Whose key it is, or why that is not proven.</summary>
    public (ProvenIdentity? Identity, Said WhyNot) ByKey(string key) => settings.ApiKeys?.Find(key, clock.GetUtcNow()) is { } known
        ? (new ProvenIdentity(known.Name, known.Roles, Identity.ApiKey), "")
        : (null, "the API key is not known, or its time is over");

    private async Task<(ProvenIdentity?, Said)> ByToken(string token, TokenScheme scheme)
    {
        var parameters = scheme.Checked.Clone();
        parameters.LifetimeValidator = (from, until, _, _) => until > clock.GetUtcNow().UtcDateTime - parameters.ClockSkew
            && (from is null || from < clock.GetUtcNow().UtcDateTime + parameters.ClockSkew);
        var result = await Tokens.ValidateTokenAsync(token, parameters).ConfigureAwait(false);
        if (!result.IsValid)
        {
            return (null, result.Exception switch
            {
                SecurityTokenInvalidLifetimeException or SecurityTokenExpiredException or SecurityTokenNoExpirationException or SecurityTokenNotYetValidException => "the token's time is over, or has not begun",
                SecurityTokenInvalidAudienceException => "the token is for another audience",
                SecurityTokenInvalidIssuerException => "the token is of another issuer",
                _ => "the token does not prove itself: its signature, or what it is made of",
            });
        }

        var name = result.ClaimsIdentity.FindFirst(scheme.NameClaim)?.Value.Trim() ?? "";
        if (name.Length is 0 or > Callers.MostCharacters)
        {
            return (null, $"the token has no claim {scheme.NameClaim} of 1 to {Callers.MostCharacters} characters");
        }

        var roles = result.ClaimsIdentity.FindAll(scheme.RoleClaim).Select(claim => scheme.Roles.TryGetValue(claim.Value, out var role) ? role : (Role?)null).OfType<Role>().Distinct();
        return (new ProvenIdentity(name, [.. roles], Identity.Token), "");
    }

    private (ProvenIdentity?, Said) ByCertificate(X509Certificate2 certificate)
    {
        var now = clock.GetUtcNow().UtcDateTime;
        if (now < certificate.NotBefore.ToUniversalTime() || now > certificate.NotAfter.ToUniversalTime())
        {
            return (null, "the certificate's time is over, or has not begun");
        }

        var thumbprint = certificate.GetCertHashString(HashAlgorithmName.SHA256);
        var known = settings.ClientCertificates.FirstOrDefault(one => one.Thumbprint is not null
            ? string.Equals(one.Thumbprint, thumbprint, StringComparison.OrdinalIgnoreCase)
            : one.Subject == certificate.Subject && IsOfTheAuthority(certificate, now));
        return known is null ? (null, "the certificate is not known") : (new ProvenIdentity(known.Name, known.Roles, Identity.Certificate), "");
    }

    // Only the authority that is configured counts, whatever the machine itself believes.
    private bool IsOfTheAuthority(X509Certificate2 certificate, DateTime now)
    {
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.Add(settings.ClientAuthority!);
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationTime = now;
        chain.ChainPolicy.ApplicationPolicy.Add(new Oid("1.3.6.1.5.5.7.3.2"));
        return chain.Build(certificate);
    }

    private IEnumerable<Said> Taken()
    {
        if (settings.ApiKeys is not null)
        {
            yield return "an API key (x-api-key)";
        }

        if (settings.Tokens is not null)
        {
            yield return "a token (authorization: Bearer)";
        }

        if (settings.ClientCertificates.Count > 0)
        {
            yield return "a client certificate";
        }
    }
}
