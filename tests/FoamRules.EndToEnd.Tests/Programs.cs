using System.Diagnostics;
using FoamRules.Cli;
using FoamRules.Cli.Output;
using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>Runs the command line and other programs as their users do.</summary>
internal static class Programs
{
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(2);

    /// <summary>The command line; tests are built in the same configuration.</summary>
    public static readonly string Cli = Repository.PathOf("src", "FoamRules.Cli", "bin", Configuration, "net10.0", "foamrules.dll");

    // Wherever the tests are run: what is called in this process writes to no terminal.
    static Programs() => (Terminal.HasOutput, Terminal.HasErrors) = (false, false);

    private static string Configuration => Path.GetFileName(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)))!;

    /// <summary>
    /// Calls the command line from its first word to its exit code, in this process: a process of its own takes two seconds to start, a call a fraction of one.
    /// </summary>
    public static Task<Ran> FoamRules(params string[] arguments) => Screens.Of(() => CommandLine.Run(arguments));

    /// <summary>Runs the command line as a process of its own, as a shell does.</summary>
    public static Task<Ran> FoamRulesProcess(params string[] arguments) => Run("dotnet", [Cli, .. arguments]);

    public static ProcessStartInfo FoamRulesStart(params string[] arguments) => Start("dotnet", [Cli, .. arguments]);

    public static async Task<Ran> Run(string program, IReadOnlyList<string> arguments, string? input = null, string? folder = null, params (string Name, string Value)[] environment)
    {
        var start = Start(program, arguments);
        start.RedirectStandardInput = true;
        start.WorkingDirectory = folder ?? Repository.Root;
        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        using var process = Process.Start(start)!;
        using var patience = new CancellationTokenSource(Patience);
        var output = process.StandardOutput.ReadToEndAsync(patience.Token);
        var errors = process.StandardError.ReadToEndAsync(patience.Token);
        await process.StandardInput.WriteAsync(input);
        process.StandardInput.Close();
        await process.WaitForExitAsync(patience.Token);
        return new Ran(process.ExitCode, await output, await errors);
    }

    /// <summary>True where a program is on the path.</summary>
    public static bool Has(string program) =>
        (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator).Any(folder => File.Exists(Path.Combine(folder, program)));

    private static ProcessStartInfo Start(string program, IReadOnlyList<string> arguments) =>
        new(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false, Environment = { ["DOTNET_TieredPGO"] = "0" } };
}
