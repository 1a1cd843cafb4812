using System.Diagnostics;
using FoamRules.Testing;

namespace FoamRules.Records.Tests;

/// <summary>A small disk of its own, in memory, which is gone after the test. Only root may mount one; elsewhere the test is skipped and says so.</summary>
internal sealed class SmallDisk : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    private SmallDisk()
    {
    }

    public string Path => _folder.Path;

    public static SmallDisk Mount(string size)
    {
        var disk = new SmallDisk();
        var mounted = OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess && Run("mount", "-t", "tmpfs", "-o", $"size={size}", "tmpfs", disk.Path);
        if (!mounted)
        {
            disk._folder.Dispose();
        }

        Assert.SkipUnless(mounted, "needs the right to mount a small disk");
        return disk;
    }

    public void MakeReadOnly() => Assert.True(Run("mount", "-o", "remount,ro", Path));

    public void MakeWritable() => Assert.True(Run("mount", "-o", "remount,rw", Path));

    public void Dispose()
    {
        Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
        Run("umount", "--lazy", Path);
        _folder.Dispose();
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.StandardError.ReadToEnd();
        process.WaitForExit();
        return process.ExitCode == 0;
    }
}
