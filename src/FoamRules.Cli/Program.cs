using System.CommandLine;
using FoamRules.Cli.Commands;

var root = new RootCommand("""
    FoamRules checks plans for two-component polyurethane foam work, before the trigger is pulled and before the price goes out.
    It defers to data sheets, local codes, the authority having jurisdiction and licensed practice.
    """);
root.Subcommands.Add(CheckCommand.Create());
root.Subcommands.Add(RulesCommand.Create());
root.Subcommands.Add(RuleSetCommand.Create());
root.Subcommands.Add(SchemaCommand.Create());
root.Subcommands.Add(CalcCommand.Create());
root.Subcommands.Add(ServeCommand.Create());
root.Subcommands.Add(ReviewCommand.Create());
root.Subcommands.Add(ReplayCommand.Create());
root.Subcommands.Add(LogCommand.Create());
var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
    {
        Console.Error.WriteLine(error.Message);
    }

    Console.Error.WriteLine($"see: foamrules {string.Join(' ', parsed.CommandResult.Command == root ? [] : new[] { parsed.CommandResult.Command.Name })} --help".Replace("  ", " ", StringComparison.Ordinal));
    return ExitCode.Unusable;
}

// A service ends by its host: what it has begun it finishes. Two who listen for the same signal get in each other's way.
return await parsed.InvokeAsync(new InvocationConfiguration { ProcessTerminationTimeout = parsed.CommandResult.Command.Name == "serve" ? null : TimeSpan.FromSeconds(2) });
