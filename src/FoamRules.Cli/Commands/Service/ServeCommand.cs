using System.CommandLine;
using FoamRules.Records.Store;
using FoamRules.Service;
using Microsoft.Extensions.Hosting;

namespace FoamRules.Cli.Commands.Service;

/// <summary><c>foamrules serve</c>: starts the service.</summary>
internal static class ServeCommand
{
    public static Command Create()
    {
        var port = Port("--port", "the port for gRPC, with TLS also for pages and HTTP with JSON; 0 takes a free one and says which");
        port.DefaultValueFactory = _ => 5080;
        var webPort = Port("--web-port", "the port for pages and for HTTP with JSON; left out, the one after --port, or with TLS none of its own");
        var rules = CommonOptions.Rules();
        var store = StoreOption.Create();
        var (settings, listen) = (AccessOption.Settings(), AccessOption.Listen());
        var drain = new Option<int>("--drain-seconds") { Description = "on SIGTERM, how long the ports stay open: half of it taking work but not ready any more, so that a balancer notices, half of it refusing new work" };
        drain.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 0 or > 3600)
            {
                result.AddError("--drain-seconds: allowed: 0 to 3600");
            }
        });
        var command = new Command("serve", """
            Starts the service, on this machine only unless --listen and the settings say otherwise: gRPC, and pages and HTTP with JSON on a port of their own. A changed rule set is taken over while it
            runs; a broken one is refused and the old one stays. Exit code 0: it was told to end; 2: unusable input.

            Examples:
              foamrules serve
              foamrules serve --listen 0.0.0.0 --settings access.json --store reviews.db
              foamrules serve --port 6080 --web-port 6081 --store reviews.db --drain-seconds 10
            """)
        {
            port, webPort, rules, store, drain, listen, settings,
        };
        command.SetAction(async (parsed, cancellation) =>
        {
            if (AccessOption.Read(parsed.GetValue(settings), parsed.GetValue(listen)) is not { } access)
            {
                return ExitCode.Unusable;
            }

            if (CommonOptions.OpenEngine(parsed.GetValue(rules)!) is not { } engine)
            {
                return ExitCode.Unusable;
            }

            RecordStore? records = null;
            if (parsed.GetValue(store) is { } place && (records = await StoreOption.Open(place, cancellation).ConfigureAwait(false)) is null)
            {
                return ExitCode.Unusable;
            }

            var grpcPort = parsed.GetValue(port);
            await using var service = ServiceHost.Build(new ServiceSettings
            {
                Engine = engine,
                GrpcPort = grpcPort,
                WebPort = parsed.GetResult(webPort) is not null ? parsed.GetValue(webPort) : access.Certificate is not null ? null : grpcPort is 0 ? 0 : grpcPort + 1,
                Access = access,
                RulesFolder = parsed.GetValue(rules),
                Records = records,
                NoticeFor = TimeSpan.FromSeconds(parsed.GetValue(drain)) / 2,
                DrainFor = TimeSpan.FromSeconds(parsed.GetValue(drain)) / 2,
            });
            try
            {
                await service.StartAsync(cancellation).ConfigureAwait(false);
            }
            catch (IOException error)
            {
                Console.Error.WriteLine($"--port, --web-port: {error.Message.TrimEnd('.')}; name other ports, or end what listens there");
                return ExitCode.Unusable;
            }

            var urls = service.Urls.ToList();
            Console.Out.WriteLine($"listening on {urls[0]}");
            Console.Out.WriteLine($"pages, and HTTP with JSON, on {urls[^1]}");
            await service.WaitForShutdownAsync(cancellation).ConfigureAwait(false);
            return ExitCode.Proceed;
        });
        return command;
    }

    private static Option<int> Port(string name, string description)
    {
        var port = new Option<int>(name) { Description = description };
        port.Validators.Add(result =>
        {
            if (result.GetValueOrDefault<int>() is < 0 or > 65535)
            {
                result.AddError($"{name}: allowed: 0 to 65535");
            }
        });
        return port;
    }
}
