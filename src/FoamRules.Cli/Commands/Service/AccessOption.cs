using System.CommandLine;
using FoamRules.Access;
using FoamRules.Model;
using Microsoft.Extensions.Configuration;

namespace FoamRules.Cli.Commands.Service;

/// <summary>Who may reach the service: from a settings file, then the environment, then the options, the last that speaks counts.</summary>
internal static class AccessOption
{
    private const string Prefix = "FOAMRULES_";

    /// <summary>The settings file.</summary>
    public static Option<string?> Settings() => new("--settings")
    {
        Description = "a JSON file with the section access: who may reach the service and how; FOAMRULES_ACCESS__… in the environment stands before it",
        DefaultValueFactory = _ => Environment.GetEnvironmentVariable("FOAMRULES_SETTINGS") is { Length: > 0 } given ? given : null,
    };

    /// <summary>The address.</summary>
    public static Option<string?> Listen() => new("--listen") { Description = "the address on which to listen; other than this machine's own only with TLS and a way to prove who calls" };

    /// <summary>The settings; says everything that is wrong and answers null where they cannot be used.</summary>
    public static AccessSettings? Read(string? file, string? listen)
    {
        var options = new AccessOptions();
        try
        {
            var configuration = new ConfigurationBuilder();
            if (file is not null)
            {
                configuration.AddJsonFile(Path.GetFullPath(file), optional: false);
            }

            configuration.AddEnvironmentVariables(Prefix);
            // A slip in a name must not leave a door open that was meant to be shut.
            configuration.Build().GetSection("access").Bind(options, binder => binder.ErrorOnUnknownConfiguration = true);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or InvalidOperationException or FormatException)
        {
            Say([new Violation(file ?? Prefix + "ACCESS__…", error.InnerException?.Message is { } inner ? $"{error.Message} {inner}" : error.Message, "the names and values of docs/security.md", "mend it")]);
            return null;
        }

        options.Listen = listen ?? options.Listen;
        var settings = AccessReader.Read(options, out var violations);
        if (settings is null)
        {
            Say(violations);
        }

        return settings;
    }

    private static void Say(IEnumerable<Violation> violations)
    {
        Console.Error.WriteLine("the service does not start; who may reach it is not settled:");
        CommonOptions.WriteViolations(violations);
    }
}
