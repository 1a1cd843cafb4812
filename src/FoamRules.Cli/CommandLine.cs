using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Parsing;
using FoamRules.Cli.Commands;
using FoamRules.Cli.Commands.Service;
using FoamRules.Cli.Output;

namespace FoamRules.Cli;

/// <summary>The command line from its first word to its exit code.</summary>
internal static class CommandLine
{
    /// <summary>Runs what was typed.</summary>
    /// <param name="args">The words after the program's name.</param>
    /// <returns>The exit code.</returns>
    public static async Task<int> Run(string[] args)
    {
        var root = new RootCommand("""
            FoamRules checks plans for two-component polyurethane foam work, before the trigger is pulled and before the price goes out.
            It defers to data sheets, local codes, the authority having jurisdiction and licensed practice.

            Exit codes: 0 proceed, with or without cautions, or done; 10 hold; 20 stop, or something is wrong with what was verified;
            2 input that cannot be used. Colour comes only on a terminal and never says what no word says; NO_COLOR turns it off.

            Examples:
              foamrules check job.yaml
              foamrules rules vent
              foamrules calc fill-mass
              foamrules serve
            """);
        root.Subcommands.Add(CheckCommand.Create());
        root.Subcommands.Add(RulesCommand.Create());
        root.Subcommands.Add(RuleSetCommand.Create());
        root.Subcommands.Add(SchemaCommand.Create());
        root.Subcommands.Add(CalcCommand.Create());
        foreach (var command in ServiceCommands.Create())
        {
            root.Subcommands.Add(command);
        }

        root.Subcommands.Add(CompletionCommand.Create());
        root.Options.OfType<HelpOption>().Single().Action = new Help();
        var parsed = root.Parse(args);
        // What a shell asks while a command is being typed is no whole command yet.
        var asked = args is [{ } first, ..] && first.StartsWith("[suggest", StringComparison.Ordinal);
        if (parsed.Errors.Count > 0 && !asked)
        {
            foreach (var error in parsed.Errors)
            {
                Console.Error.WriteLine(error.Message);
            }

            // From the command up to the root, such as `review sign-off`.
            var names = new List<string> { "--help" };
            for (SymbolResult? at = parsed.CommandResult; at is CommandResult { Command: { } within } && within != root; at = at.Parent)
            {
                names.Insert(0, within.Name);
            }

            Console.Error.WriteLine($"see: foamrules {string.Join(' ', names)}");
            return ExitCode.Unusable;
        }

        // A service ends by its host: what it has begun it finishes. Two who listen for the same signal get in each other's way.
        return await parsed.InvokeAsync(new InvocationConfiguration { ProcessTerminationTimeout = parsed.CommandResult.Command.Name == "serve" ? null : TimeSpan.FromSeconds(2) });
    }
}
