using FoamRules.Model;
using FoamRules.RuleSets;

namespace FoamRules.Rules.Fire;

/// <summary>
/// The limits that one building code gives a requirement: those whose names begin with <c>ibc.</c> or <c>irc.</c>. A rule set
/// that does not carry the code gives none, and nothing is met on them then.
/// </summary>
internal sealed class CodeLimits
{
    private readonly RequirementSpec _spec;
    private readonly string _before;

    private CodeLimits(RequirementSpec spec, BuildingCode code, string before)
    {
        _spec = spec;
        _before = before;
        Code = code;
    }

    /// <summary>The code.</summary>
    public BuildingCode Code { get; }

    /// <summary>The code as its limits and words name it: <c>ibc</c>, <c>irc</c>.</summary>
    public string Name => Code.ToString().ToLowerInvariant();

    /// <summary>True where the rule sets in force carry this code for the requirement.</summary>
    public bool AreGiven => _spec.Limits.Keys.Any(name => name.StartsWith(_before, StringComparison.Ordinal));

    /// <summary>The limits of a code; null where the plan names none, or one of which the rule sets know nothing.</summary>
    public static CodeLimits? Of(RequirementSpec spec, Site site) =>
        site.BuildingCode is { } code and (BuildingCode.Ibc or BuildingCode.Irc) ? new CodeLimits(spec, code, Prefix(code)) : null;

    /// <summary>The same code's limits of another requirement, which the rule set lists under <c>limits-of</c>.</summary>
    public CodeLimits Of(string requirement) => new(_spec, Code, $"{requirement}.{Prefix(Code)}");

    /// <summary>A limit by its name within the code; null where no rule set gives it.</summary>
    public Limit? Find(string name) => _spec.Limits.GetValueOrDefault(_before + name);

    /// <summary>The limits of a group, each by its name within the group.</summary>
    public IEnumerable<(string Name, Limit Limit)> Group(string group)
    {
        var start = $"{_before}{group}.";
        return _spec.Limits.Where(pair => pair.Key.StartsWith(start, StringComparison.Ordinal)).Select(pair => (pair.Key[start.Length..], pair.Value));
    }

    private static string Prefix(BuildingCode code) => code.ToString().ToLowerInvariant() + ".";
}
