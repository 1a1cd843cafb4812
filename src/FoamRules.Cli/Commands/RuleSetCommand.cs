using System.CommandLine;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rule-set</c>: for those who write rule sets.</summary>
internal static class RuleSetCommand
{
    public static Command Create() => new("rule-set", "Checks, compares and begins rule sets.")
    {
        RuleSetCheckCommand.Create(), RuleSetCompareCommand.Create(), RuleSetNewCommand.Create(),
    };
}
