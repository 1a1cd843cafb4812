using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.Readings;

namespace FoamRules.Cli.Commands.Service;

/// <summary>
/// What the native program answers where the whole program needs the service, its records or its pages: who types a command that is
/// described everywhere learns where it is, not that there is none of its name.
/// </summary>
internal static class ServiceCommands
{
    /// <summary>The commands.</summary>
    public static IEnumerable<Command> Create() => new[] { "serve", "key", "review", "replay", "log", "recheck" }.Select(LeftOut);

    /// <summary>Says why there is no HTML file; answers null.</summary>
    public static IPlanOutput? Html(IReadOnlyDictionary<string, string> texts, Reader reader, bool all)
    {
        Say("check --format html");
        return null;
    }

    private static Command LeftOut(string name)
    {
        var command = new Command(name, "Not in this build: the whole program does it.") { TreatUnmatchedTokensAsErrors = false };
        command.SetAction(_ =>
        {
            Say(name);
            return ExitCode.Unusable;
        });
        return command;
    }

    private static void Say(string asked) =>
        Console.Error.WriteLine($"this build checks, calculates and knows the rule sets; the whole program does `{asked}`");
}
