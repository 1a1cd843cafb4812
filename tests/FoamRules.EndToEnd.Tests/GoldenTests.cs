using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>
/// The reports on the example plans as a person reads them, word for word. A person has read each; a change shows in the
/// diff. UPDATE_GOLDENS=1 writes them anew.
/// </summary>
public sealed class GoldenTests
{
    [Theory]
    [InlineData("cold-store-dock", "")]
    [InlineData("cold-store-dock", "si", "--units", "si")]
    [InlineData("cold-store-dock", "crew", "--for", "crew", "--stage", "pre-start")]
    [InlineData("cold-store-dock", "office", "--for", "office")]
    [InlineData("cold-store-dock-broken", "")]
    [InlineData("cold-store-dock-broken", "crew", "--for", "crew")]
    [InlineData("cold-store-dock-broken", "safety", "--for", "safety")]
    [InlineData("cold-store-dock-quote", "")]
    [InlineData("cold-store-dock-quote", "office", "--for", "office")]
    public async Task The_report_reads_as_it_was_read(string plan, string kind, params string[] more)
    {
        var ran = await Programs.FoamRules(["check", Repository.PathOf("shared", "plans", $"{plan}.yaml"), .. more]);
        Assert.True(ran.Errors.Length == 0, ran.Errors);
        var golden = Repository.PathOf("shared", "reports", $"{plan}{(kind.Length > 0 ? "." + kind : "")}.txt");
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(golden)!);
            await File.WriteAllTextAsync(golden, ran.Output);
        }

        Assert.Equal(await File.ReadAllTextAsync(golden), ran.Output);
    }
}
