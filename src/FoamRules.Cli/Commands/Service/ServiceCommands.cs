using System.CommandLine;
using FoamRules.Cli.Output;
using FoamRules.Readings;

namespace FoamRules.Cli.Commands.Service;

/// <summary>What needs the service, its records or its pages. The native program has another class of this name, and none of these.</summary>
internal static class ServiceCommands
{
    /// <summary>The commands.</summary>
    public static IEnumerable<Command> Create() =>
        [ServeCommand.Create(), KeyCommand.Create(), ReviewCommand.Create(), ReplayCommand.Create(), LogCommand.Create(), RecheckCommand.Create()];

    /// <summary>Reports as one HTML file; null after saying why there is none.</summary>
    public static IPlanOutput? Html(IReadOnlyDictionary<string, string> texts, Reader reader, bool all) => new HtmlOutput(texts, reader, all);
}
