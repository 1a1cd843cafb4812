using System.Net;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using FoamRules.Contracts.V1;
using Microsoft.IdentityModel.Protocols;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using Microsoft.IdentityModel.Tokens;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Access;

/// <summary>Checks the options for access, and says everything that is wrong with them at once.</summary>
public static class AccessReader
{
    private const int UsualCallsPerMinute = 3000;

    // Whoever knows the public key could sign by it as a shared secret, and "none" is no signature at all.
    private static readonly string[] Signatures =
    [
        SecurityAlgorithms.RsaSha256, SecurityAlgorithms.RsaSha384, SecurityAlgorithms.RsaSha512,
        SecurityAlgorithms.RsaSsaPssSha256, SecurityAlgorithms.RsaSsaPssSha384, SecurityAlgorithms.RsaSsaPssSha512,
        SecurityAlgorithms.EcdsaSha256, SecurityAlgorithms.EcdsaSha384, SecurityAlgorithms.EcdsaSha512,
    ];

    /// <summary>The settings; null where something is wrong.</summary>
    /// <param name="options">The options.</param>
    /// <param name="violations">Everything that is wrong.</param>
    /// <param name="toIssuer">By what the keys of the tokens' issuer are fetched; null: as any program asks the network.</param>
    public static AccessSettings? Read(AccessOptions options, out IReadOnlyList<Violation> violations, HttpClient? toIssuer = null)
    {
        var found = new List<Violation>();
        if (!IPAddress.TryParse(options.Listen, out var listen))
        {
            found.Add(new Violation("access.listen", $"`{options.Listen}`", "an IP address, such as 127.0.0.1 or 0.0.0.0", "name the address"));
        }

        var hasKeys = options.ApiKeys.Count > 0 || options.ApiKeyFile is not null;
        ApiKeys? keys = null;
        if (hasKeys)
        {
            keys = ApiKeys.Read(options.ApiKeys, options.ApiKeyFile, out var wrong);
            found.AddRange(wrong);
        }

        var authority = Try("access.clientAuthority", options.ClientAuthority, X509CertificateLoader.LoadCertificateFromFile, "a PEM file with the authority's certificate", found);
        var settings = new AccessSettings
        {
            Listen = listen ?? IPAddress.Loopback,
            Certificate = Certificate(options, found),
            ApiKeys = keys,
            Tokens = options.Tokens is null ? null : Tokens(options.Tokens, toIssuer, found),
            ClientAuthority = authority,
            ClientCertificates = [.. options.ClientCertificates.Select((one, index) => Known(one, options, $"access.clientCertificates[{index}]", found))],
            Limits = Limits(options.Limits, listen is not null && IPAddress.IsLoopback(listen), found),
        };
        found.AddRange(OnTheNetwork(settings, hasKeys || options.Tokens is not null || options.ClientCertificates.Count > 0));
        violations = found;
        return found.Count == 0 ? settings : null;
    }

    /// <summary>What forbids to listen on an address; the service itself asks it again, whoever made the settings.</summary>
    public static IEnumerable<Violation> OnTheNetwork(AccessSettings settings) => OnTheNetwork(settings, settings.AsksForIdentity);

    private static IEnumerable<Violation> OnTheNetwork(AccessSettings settings, bool asks)
    {
        var local = IPAddress.IsLoopback(settings.Listen);
        if (!local && settings.Certificate is null)
        {
            yield return new Violation("access.certificate", "none", $"TLS where others can reach the service ({settings.Listen})", "name the service's certificate, or listen on 127.0.0.1 behind something that does TLS");
        }

        if (!local && !asks)
        {
            yield return new Violation("access", "no way to prove who calls", $"API keys, tokens or client certificates where others can reach the service ({settings.Listen})", "configure one of them, or listen on 127.0.0.1");
        }

        if (settings.ClientCertificates.Count > 0 && settings.Certificate is null)
        {
            yield return new Violation("access.clientCertificates", "without TLS", "TLS: a client's certificate comes with it", "name the service's certificate");
        }
    }

    /// <summary>A caller's name and roles.</summary>
    internal static (string Name, IReadOnlyList<Role> Roles) Who(string name, IReadOnlyList<string> words, string path, List<Violation> violations)
    {
        name = name.Trim();
        if (name.Length is 0 or > Callers.MostCharacters)
        {
            violations.Add(new Violation($"{path}.name", name.Length == 0 ? "none" : $"{name.Length} characters", $"1 to {Callers.MostCharacters} characters", "name the caller"));
        }

        if (words.Count == 0 || words.Any(word => !Access.Roles.ByWord.ContainsKey(word)))
        {
            violations.Add(new Violation($"{path}.roles", words.Count == 0 ? "none" : string.Join(", ", words), Access.Roles.Words, "name one or several roles"));
        }

        return (name, [.. words.Where(Access.Roles.ByWord.ContainsKey).Select(word => Access.Roles.ByWord[word])]);
    }

    private static X509Certificate2? Certificate(AccessOptions options, List<Violation> violations)
    {
        const string allowed = "a PEM file with certificate and key, or a PKCS 12 file";
        if (options.Certificate is not { } file)
        {
            return null;
        }

        var password = Try("access.certificatePasswordFile", options.CertificatePasswordFile, path => File.ReadLines(path).FirstOrDefault() ?? "", "a file whose first line is the password", violations);
        var certificate = Try("access.certificate", file, path => Path.GetExtension(path) is ".pfx" or ".p12"
            ? X509CertificateLoader.LoadPkcs12FromFile(path, password)
            : X509Certificate2.CreateFromPemFile(path, options.CertificateKey), allowed, violations);
        if (certificate is { HasPrivateKey: false })
        {
            violations.Add(new Violation("access.certificate", "no private key", allowed, "name the key's file, too"));
        }

        return certificate;
    }

    private static TokenScheme Tokens(TokenOptions options, HttpClient? toIssuer, List<Violation> violations)
    {
        const string path = "access.tokens";
        if (options.Issuer.Length == 0)
        {
            violations.Add(new Violation($"{path}.issuer", "none", "who issues the tokens, as their claim iss says", "name the issuer"));
        }

        if (options.Audience.Length == 0)
        {
            violations.Add(new Violation($"{path}.audience", "none", "for whom they are issued, as their claim aud says", "name the audience: a token for another service must not open this one"));
        }

        if ((options.Authority is null) == (options.KeyFiles.Count == 0))
        {
            violations.Add(new Violation(path, options.Authority is null ? "neither authority nor keyFiles" : "both authority and keyFiles", "one of them", "say where the issuer's keys come from"));
        }

        if (options.Authority is not null && !options.Authority.StartsWith("https://", StringComparison.Ordinal))
        {
            violations.Add(new Violation($"{path}.authority", $"`{options.Authority}`", "an address that begins with https://", "keys that came unprotected prove nothing"));
        }

        var keys = options.KeyFiles.Select((file, index) => Try($"{path}.keyFiles[{index}]", file, Key, "a PEM file with an RSA or EC public key", violations)).OfType<SecurityKey>().ToList();
        var roles = options.Roles.Count == 0 ? Access.Roles.ByWord : options.Roles.Where(pair => Access.Roles.ByWord.ContainsKey(pair.Value)).ToDictionary(pair => pair.Key, pair => Access.Roles.ByWord[pair.Value]);
        foreach (var (word, role) in options.Roles.Where(pair => !Access.Roles.ByWord.ContainsKey(pair.Value)))
        {
            violations.Add(new Violation($"{path}.roles[{word}]", $"`{role}`", Access.Roles.Words, "name one of the roles"));
        }

        var parameters = new TokenValidationParameters
        {
            ValidIssuer = options.Issuer,
            ValidAudience = options.Audience,
            IssuerSigningKeys = keys,
            ValidAlgorithms = Signatures,
            RequireExpirationTime = true,
            RequireSignedTokens = true,
            ClockSkew = TimeSpan.FromMinutes(1),
        };
        if (options.Authority is { } authority && authority.StartsWith("https://", StringComparison.Ordinal))
        {
            parameters.ConfigurationManager = new ConfigurationManager<OpenIdConnectConfiguration>(
                authority.TrimEnd('/') + "/.well-known/openid-configuration", new OpenIdConnectConfigurationRetriever(),
                toIssuer is null ? new HttpDocumentRetriever() : new HttpDocumentRetriever(toIssuer));
        }

        return new TokenScheme(parameters, options.NameClaim, options.RoleClaim, roles);
    }

    private static SecurityKey Key(string file)
    {
        var pem = File.ReadAllText(file);
        try
        {
            var rsa = RSA.Create();
            rsa.ImportFromPem(pem);
            return new RsaSecurityKey(rsa);
        }
        catch (Exception error) when (error is CryptographicException or ArgumentException)
        {
            var elliptic = ECDsa.Create();
            elliptic.ImportFromPem(pem);
            return new ECDsaSecurityKey(elliptic);
        }
    }

    private static KnownCertificate Known(ClientCertificateOptions one, AccessOptions options, string path, List<Violation> violations)
    {
        var (name, roles) = Who(one.Name, one.Roles, path, violations);
        var thumbprint = one.Thumbprint?.Replace(":", "", StringComparison.Ordinal).ToLowerInvariant();
        if ((thumbprint is null) == (one.Subject is null))
        {
            violations.Add(new Violation(path, thumbprint is null ? "neither thumbprint nor subject" : "both thumbprint and subject", "one of them", "say how the certificate is known"));
        }

        if (thumbprint is not null && (thumbprint.Length != 64 || !thumbprint.All(char.IsAsciiHexDigit)))
        {
            violations.Add(new Violation($"{path}.thumbprint", $"`{one.Thumbprint}`", "the 64 hexadecimal digits of the certificate's SHA-256", "write it so"));
        }

        if (one.Subject is not null && options.ClientAuthority is null)
        {
            violations.Add(new Violation($"{path}.subject", $"`{one.Subject}`", "clientAuthority: anybody can write a subject", "name the authority's certificate, or the client's thumbprint"));
        }

        return new KnownCertificate(thumbprint, one.Subject, name, roles);
    }

    private static CallerLimits Limits(LimitOptions options, bool local, List<Violation> violations)
    {
        (string Name, double Value, double Least)[] given =
        [
            ("callsPerMinute", options.CallsPerMinute ?? 0, 0), ("burst", options.Burst ?? 1, 1), ("callsAtOnce", options.CallsAtOnce, 1), ("waiting", options.Waiting, 0),
            ("callSeconds", options.CallSeconds, 0.001), ("streamSeconds", options.StreamSeconds, 0.001), ("connections", options.Connections, 1),
            // The server looks once a second.
            ("standstillSeconds", options.StandstillSeconds, 2),
        ];
        violations.AddRange(given.Where(one => !(one.Value >= one.Least && one.Value <= 1e9))
            .Select(one => new Violation($"access.limits.{one.Name}", $"{one.Value}", FormattableString.Invariant($"at least {one.Least}"), "give another number, or leave it out")));
        if (violations.Count > 0)
        {
            return new CallerLimits();
        }

        var perMinute = options.CallsPerMinute ?? (local ? 0 : UsualCallsPerMinute);
        return new CallerLimits
        {
            CallsPerMinute = perMinute,
            Burst = options.Burst ?? Math.Max(1, perMinute / 10),
            CallsAtOnce = options.CallsAtOnce,
            Waiting = options.Waiting,
            LongestCall = TimeSpan.FromSeconds(options.CallSeconds),
            LongestStream = TimeSpan.FromSeconds(options.StreamSeconds),
            Connections = options.Connections,
            Standstill = TimeSpan.FromSeconds(options.StandstillSeconds),
        };
    }

    private static T? Try<T>(string path, string? file, Func<string, T> read, string allowed, List<Violation> violations)
        where T : class
    {
        try
        {
            return file is null ? null : read(file);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or CryptographicException or ArgumentException)
        {
            violations.Add(new Violation(path, $"{file}: {error.Message}", allowed, "name a file that can be read"));
            return null;
        }
    }
}
