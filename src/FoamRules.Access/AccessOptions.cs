namespace FoamRules.Access;

/// <summary>Who may reach the service and how, as it stands in a settings file, the environment or the options of <c>serve</c>.</summary>
public sealed class AccessOptions
{
    /// <summary>The address on which the service listens; the loopback address where it is left out.</summary>
    public string Listen { get; set; } = "127.0.0.1";

    /// <summary>The service's certificate: a PEM or a PKCS 12 file. Without one there is no TLS.</summary>
    public string? Certificate { get; set; }

    /// <summary>The PEM file with the certificate's key, where it is not in the same file.</summary>
    public string? CertificateKey { get; set; }

    /// <summary>The file whose first line is the password of the certificate's file.</summary>
    public string? CertificatePasswordFile { get; set; }

    /// <summary>API keys. Only their hashes are written down.</summary>
    public List<ApiKeyOptions> ApiKeys { get; set; } = [];

    /// <summary>A JSON file with more API keys, a list; a changed file is taken over while the service runs.</summary>
    public string? ApiKeyFile { get; set; }

    /// <summary>Tokens of an issuer.</summary>
    public TokenOptions? Tokens { get; set; }

    /// <summary>Certificates by which machines are known.</summary>
    public List<ClientCertificateOptions> ClientCertificates { get; set; } = [];

    /// <summary>The PEM file of the authority whose certificates are believed; needed where clients are known by subject.</summary>
    public string? ClientAuthority { get; set; }

    /// <summary>What one caller may ask at most.</summary>
    public LimitOptions Limits { get; set; } = new();
}

/// <summary>An API key.</summary>
public sealed class ApiKeyOptions
{
    /// <summary>The caller's name; two keys may have the same, so that one can take the other's place.</summary>
    public string Name { get; set; } = "";

    /// <summary>The roles that its holder has.</summary>
    public List<string> Roles { get; set; } = [];

    /// <summary>SHA-256 of the key, in hexadecimal.</summary>
    public string Hash { get; set; } = "";

    /// <summary>Until when it is taken; left out: until it is struck from the list.</summary>
    public string? Until { get; set; }
}

/// <summary>Tokens (JWT) of an issuer.</summary>
public sealed class TokenOptions
{
    /// <summary>Who issues them.</summary>
    public string Issuer { get; set; } = "";

    /// <summary>For whom they are issued: this service.</summary>
    public string Audience { get; set; } = "";

    /// <summary>The issuer's address, below which its keys are found (OpenID Connect discovery); https only.</summary>
    public string? Authority { get; set; }

    /// <summary>PEM files with the issuer's public keys, where they are not looked up.</summary>
    public List<string> KeyFiles { get; set; } = [];

    /// <summary>The claim that names the caller.</summary>
    public string NameClaim { get; set; } = "name";

    /// <summary>The claim that tells the caller's roles.</summary>
    public string RoleClaim { get; set; } = "roles";

    /// <summary>What the issuer calls the roles: its word, and ours. Empty: the same as ours. A word that is not named gives no role.</summary>
    public Dictionary<string, string> Roles { get; set; } = [];
}

/// <summary>A certificate by which a machine is known: by its thumbprint, or by its subject under the authority.</summary>
public sealed class ClientCertificateOptions
{
    /// <summary>SHA-256 of the certificate, in hexadecimal.</summary>
    public string? Thumbprint { get; set; }

    /// <summary>The certificate's subject, such as CN=office-tool.</summary>
    public string? Subject { get; set; }

    /// <summary>The caller's name.</summary>
    public string Name { get; set; } = "";

    /// <summary>The roles that it has.</summary>
    public List<string> Roles { get; set; } = [];
}

/// <summary>What one caller may ask at most.</summary>
public sealed class LimitOptions
{
    /// <summary>Calls a minute, on average; 0: as many as one likes; left out: as many on loopback, 3000 elsewhere.</summary>
    public int? CallsPerMinute { get; set; }

    /// <summary>Calls in a burst; left out: a tenth of those of a minute.</summary>
    public int? Burst { get; set; }

    /// <summary>Calls at once; more wait.</summary>
    public int CallsAtOnce { get; set; } = 64;

    /// <summary>Calls that may wait; more are refused.</summary>
    public int Waiting { get; set; } = 256;

    /// <summary>The longest time for a call, in seconds.</summary>
    public double CallSeconds { get; set; } = 120;

    /// <summary>The longest time for a stream, in seconds.</summary>
    public double StreamSeconds { get; set; } = 3600;

    /// <summary>Connections of all callers.</summary>
    public int Connections { get; set; } = 1000;

    /// <summary>How long a connection may stand still, in seconds, before it is ended.</summary>
    public double StandstillSeconds { get; set; } = 10;
}
