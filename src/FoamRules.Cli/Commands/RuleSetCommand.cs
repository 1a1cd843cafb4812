using System.CommandLine;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules rule-set</c>: for those who write rule sets.</summary>
internal static class RuleSetCommand
{
    public static Command Create() => new("rule-set", """
        Checks, compares and begins rule sets. Exit code 0: done; 2: it does not load, or unusable input.

        Examples:
          foamrules rule-set new my-company --above general-practice
          foamrules rule-set check my-company
          foamrules rule-set compare general-practice my-company jobs/*.yaml
        """)
    {
        RuleSetCheckCommand.Create(), RuleSetCompareCommand.Create(), RuleSetNewCommand.Create(),
    };
}
