using System.Collections.Frozen;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using FoamRules.Contracts.V1;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Access;

/// <summary>An API key, of which only the hash is known.</summary>
/// <param name="Name">The caller's name.</param>
/// <param name="Roles">The roles that its holder has.</param>
/// <param name="Hash">SHA-256 of the key, in small hexadecimal letters.</param>
/// <param name="Until">Until when it is taken; null: until it is struck from the list.</param>
public sealed record ApiKey(string Name, IReadOnlyList<Role> Roles, string Hash, DateTimeOffset? Until)
{
    private const string Prefix = "foamrules_";

    /// <summary>
    /// A new key: 256 bits by chance, with a beginning by which scanners for secrets know it. It is long enough that a plain hash
    /// cannot be turned round, so that no slow one is needed at each call.
    /// </summary>
    public static string Make() => Prefix + Convert.ToBase64String(RandomNumberGenerator.GetBytes(32)).TrimEnd('=').Replace('+', '-').Replace('/', '_');

    /// <summary>The hash of a key.</summary>
    public static string HashOf(string key) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(key)));
}

/// <summary>The API keys that are taken: those of the settings, and those of a file, which is read again when it has changed.</summary>
public sealed class ApiKeys
{
    private static readonly JsonSerializerOptions Json = new() { PropertyNameCaseInsensitive = true, ReadCommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true };

    private readonly IReadOnlyList<ApiKey> _settings;
    private readonly string? _file;
    private readonly Lock _reading = new();
    private FrozenDictionary<string, ApiKey> _byHash = FrozenDictionary<string, ApiKey>.Empty;
    private DateTime _readOf;

    private ApiKeys(IReadOnlyList<ApiKey> settings, string? file) => (_settings, _file) = (settings, file);

    /// <summary>What was wrong with the file when it was last read; null: nothing. The keys before it stay.</summary>
    public string? Refused { get; private set; }

    /// <summary>Reads the keys; null where something is wrong with them.</summary>
    /// <param name="listed">Those of the settings.</param>
    /// <param name="file">The file; null: there is none.</param>
    /// <param name="violations">What is wrong.</param>
    public static ApiKeys? Read(IReadOnlyList<ApiKeyOptions> listed, string? file, out IReadOnlyList<Violation> violations)
    {
        var found = new List<Violation>();
        var keys = new ApiKeys([.. listed.Select((key, index) => Of(key, $"access.apiKeys[{index}]", found)).OfType<ApiKey>()], file);
        found.AddRange(keys.ReadFile());
        violations = found;
        return found.Count == 0 ? keys : null;
    }

    /// <summary>The key that was shown; null where none is like it or its time is over.</summary>
    public ApiKey? Find(string shown, DateTimeOffset now)
    {
        TakeChanges();
        return _byHash.TryGetValue(ApiKey.HashOf(shown), out var key) && (key.Until is null || now < key.Until) ? key : null;
    }

    private void TakeChanges()
    {
        if (_file is not null && File.GetLastWriteTimeUtc(_file) != _readOf)
        {
            lock (_reading)
            {
                if (File.GetLastWriteTimeUtc(_file) != _readOf)
                {
                    Refused = ReadFile() is { Count: > 0 } wrong ? string.Join("; ", wrong) : null;
                }
            }
        }
    }

    // A file that cannot be used changes nothing: those who have a key are not locked out by a slip.
    private List<Violation> ReadFile()
    {
        var found = new List<Violation>();
        var more = new List<ApiKey>();
        if (_file is not null)
        {
            _readOf = File.GetLastWriteTimeUtc(_file);
            try
            {
                var listed = JsonSerializer.Deserialize<List<ApiKeyOptions>>(File.ReadAllText(_file), Json) ?? [];
                more.AddRange(listed.Select((key, index) => Of(key, $"{_file}[{index}]", found)).OfType<ApiKey>());
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException or JsonException)
            {
                found.Add(new Violation("access.apiKeyFile", error.Message, "a JSON list of keys, as foamrules key new writes them", "mend the file"));
            }
        }

        var all = _settings.Concat(more).ToList();
        foreach (var twice in all.GroupBy(key => key.Hash).Where(group => group.Count() > 1))
        {
            found.Add(new Violation("access.apiKeys", $"the same key for {string.Join(" and ", twice.Select(key => key.Name))}", "a key of their own for each entry", "make another one with foamrules key new"));
        }

        if (found.Count == 0)
        {
            _byHash = all.ToFrozenDictionary(key => key.Hash, StringComparer.Ordinal);
        }

        return found;
    }

    private static ApiKey? Of(ApiKeyOptions key, string path, List<Violation> violations)
    {
        var before = violations.Count;
        var (name, roles) = AccessReader.Who(key.Name, key.Roles, path, violations);
        var hash = key.Hash.ToLowerInvariant();
        if (hash.Length != 64 || !hash.All(char.IsAsciiHexDigit))
        {
            // What stands there may be the key itself: it is not repeated.
            violations.Add(new Violation($"{path}.hash", $"{hash.Length} characters", "the 64 hexadecimal digits of the key's SHA-256, never the key", "make a key and its entry with foamrules key new"));
        }

        DateTimeOffset? until = null;
        if (key.Until is { Length: > 0 } given)
        {
            if (DateTimeOffset.TryParse(given, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var parsed))
            {
                until = parsed;
            }
            else
            {
                violations.Add(new Violation($"{path}.until", $"`{given}`", "a time such as 2026-12-31T18:00:00Z", "write it so, or leave it out"));
            }
        }

        return violations.Count == before ? new ApiKey(name, roles, hash, until) : null;
    }
}
