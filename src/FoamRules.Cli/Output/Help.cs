using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;

namespace FoamRules.Cli.Output;

/// <summary>Help in which a list of commands says of each what it does, and only its own help gives its examples.</summary>
internal sealed class Help : SynchronousCommandLineAction
{
    private readonly HelpAction _usual = new();

    /// <inheritdoc/>
    public override bool ClearsParseErrors => true;

    /// <inheritdoc/>
    public override int Invoke(ParseResult parseResult)
    {
        // The process ends after this, so that nobody misses what is cut here.
        foreach (var command in parseResult.CommandResult.Command.Subcommands)
        {
            command.Description = command.Description?.ReplaceLineEndings("\n").Split("\n\n")[0].Replace('\n', ' ');
        }

        return _usual.Invoke(parseResult);
    }
}
