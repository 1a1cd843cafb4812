using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets;

/// <summary>The words that rule sets use for what the contract names.</summary>
public static class RuleSetWords
{
    /// <summary>A stage: <c>pre-start</c>.</summary>
    public static string Of(Stage stage) => Hyphenated(stage.ToString());

    /// <summary>A severity: <c>hold</c>.</summary>
    public static string Of(Severity severity) => severity switch
    {
        Severity.StopWork => "stop",
        Severity.HoldPoint => "hold",
        _ => Hyphenated(severity.ToString()),
    };

    /// <summary>How a source is known: <c>from-memory</c>.</summary>
    public static string Of(SourceStatus status) => Hyphenated(status.ToString());

    /// <summary>A level: <c>local-authority</c>.</summary>
    public static string Of(Level level) => Hyphenated(level.ToString());

    /// <summary>Whether a rule set counts: <c>in-force</c>.</summary>
    public static string Of(RuleSetStatus status) => Hyphenated(status.ToString());

    /// <summary>What a declared requirement is judged on: <c>spray</c>.</summary>
    public static string Of(DeclaredBearer bearer) => Hyphenated(bearer.ToString());

    /// <summary>A disposition: <c>proceed-with-cautions</c>.</summary>
    public static string Of(Disposition disposition) => Hyphenated(disposition.ToString());

    /// <summary>An outcome: <c>not-met</c>.</summary>
    public static string Of(Outcome outcome) => Hyphenated(outcome.ToString());

    private static string Hyphenated(string name) => PathStep.FieldName(name).Replace('_', '-');
}
