using System.CommandLine;
using FoamRules.Records.Store;
using FoamRules.Service;
using Microsoft.Extensions.Hosting;

namespace FoamRules.Cli.Commands;

/// <summary><c>foamrules serve</c>: starts the service.</summary>
internal static class ServeCommand
{
    public static Command Create()
    {
        var port = new Option<int>("--port") { Description = "the port to listen on, on this machine only; 0 takes a free one and says which", DefaultValueFactory = _ => 5080 };
        port.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 0 or > 65535)
            {
                result.AddError("--port: allowed: 0 to 65535");
            }
        });
        var rules = CommonOptions.Rules();
        var store = CommonOptions.Store();
        var command = new Command("serve", "Starts the gRPC service on this machine. A changed rule set is taken over while it runs; a broken one is refused and the old one stays.") { port, rules, store };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return ExitCode.Unusable;
            }

            RecordStore? records = null;
            if (parsed.GetValue(store) is { } place && (records = await CommonOptions.OpenStore(place, cancellation).ConfigureAwait(false)) is null)
            {
                return ExitCode.Unusable;
            }

            await using var service = ServiceHost.Build(engine, parsed.GetValue(port), parsed.GetValue(rules), records: records);
            await service.StartAsync(cancellation).ConfigureAwait(false);
            Console.Out.WriteLine($"listening on {string.Join(", ", service.Urls)}");
            await service.WaitForShutdownAsync(cancellation).ConfigureAwait(false);
            return ExitCode.Proceed;
        });
        return command;
    }
}
