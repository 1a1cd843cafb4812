using System.Diagnostics;
using System.Runtime.InteropServices;
using FoamRules.Testing;

namespace FoamRules.Benchmarks.Ratios;

/// <summary>Programs of their own: how much processor time they take from start to end, or to their first line.</summary>
internal static partial class Children
{
    private const int OfChildren = -1;

    /// <summary>The command line: as published where FOAMRULES names it, else as it was built with this program.</summary>
    public static string[] FoamRules { get; } = Environment.GetEnvironmentVariable("FOAMRULES") is { Length: > 0 } published
        ? [published]
        : ["dotnet", Repository.PathOf("src", "FoamRules.Cli", "bin", Configuration, "net10.0", "foamrules.dll")];

    private static string Configuration => Path.GetFileName(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(AppContext.BaseDirectory)))!;

    /// <summary>The processor time of a program from its start to its end.</summary>
    public static async Task<TimeSpan> Whole(params string[] command)
    {
        var before = Used();
        using var process = Start(command);
        await process.StandardOutput.ReadToEndAsync();
        await process.WaitForExitAsync();
        return Used() - before;
    }

    /// <summary>The processor time of a program, and the time on the clock, until it writes a line that begins so; then it is ended.</summary>
    public static async Task<(TimeSpan Cpu, TimeSpan Clock)> Until(string beginning, params string[] command)
    {
        var clock = Stopwatch.StartNew();
        using var process = Start(command);
        while (await process.StandardOutput.ReadLineAsync() is { } line && !line.StartsWith(beginning, StringComparison.Ordinal))
        {
        }

        var ready = clock.Elapsed;
        process.Refresh();
        var cpu = process.TotalProcessorTime;
        process.Kill();
        await process.WaitForExitAsync();
        return (cpu, ready);
    }

    private static Process Start(string[] command) => Process.Start(new ProcessStartInfo(command[0], command[1..]) { RedirectStandardOutput = true, UseShellExecute = false })!;

    // What all children that have ended have used. .NET does not say it of a process that is gone.
    private static TimeSpan Used()
    {
        var usage = new long[32];
        if (GetUsage(OfChildren, usage) != 0)
        {
            throw new InvalidOperationException("getrusage does not answer");
        }

        return TimeSpan.FromSeconds(usage[0] + usage[2]) + TimeSpan.FromMicroseconds(usage[1] + usage[3]);
    }

    [LibraryImport("libc", EntryPoint = "getrusage")]
    private static partial int GetUsage(int who, [Out] long[] usage);
}
