using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>
/// The reports on the example plans as a person reads them, word for word. A person has read each; a change shows in the
/// diff. UPDATE_GOLDENS=1 writes them anew.
/// </summary>
public sealed class GoldenTests
{
    /// <summary>Each plan, the kind of report in the golden's name, and the arguments that make it.</summary>
    public static TheoryData<string, string, string[]> Reports => new()
    {
        { "cold-store-dock", "", [] },
        { "cold-store-dock", "si", ["--units", "si"] },
        { "cold-store-dock", "crew", ["--for", "crew", "--stage", "pre-start"] },
        { "cold-store-dock", "office", ["--for", "office"] },
        { "cold-store-dock", "es", ["--language", "es"] },
        { "cold-store-dock", "fr", ["--language", "fr"] },
        { "cold-store-dock-broken", "", [] },
        { "cold-store-dock-broken", "crew", ["--for", "crew"] },
        { "cold-store-dock-broken", "safety", ["--for", "safety"] },
        { "cold-store-dock-broken", "es", ["--language", "es"] },
        { "cold-store-dock-broken", "fr", ["--language", "fr"] },
        { "cold-store-dock-quote", "", [] },
        { "cold-store-dock-quote", "office", ["--for", "office"] },
    };

    [Theory]
    [MemberData(nameof(Reports))]
    public async Task The_report_reads_as_it_was_read(string plan, string kind, string[] more)
    {
        var ran = await Programs.FoamRules(["check", Repository.PathOf("shared", "plans", $"{plan}.yaml"), .. more]);
        Assert.True(ran.Errors.Length == 0, ran.Errors);
        var golden = PathOf(plan, kind);
        if (Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1")
        {
            Directory.CreateDirectory(Path.GetDirectoryName(golden)!);
            await File.WriteAllTextAsync(golden, ran.Output);
        }

        Assert.Equal(await File.ReadAllTextAsync(golden), ran.Output);
    }

    /// <summary>The golden of a kind of report on a plan.</summary>
    internal static string PathOf(string plan, string kind) => Repository.PathOf("shared", "reports", $"{plan}{(kind.Length > 0 ? "." + kind : "")}.txt");

    [Fact]
    public async Task The_language_of_the_machine_is_never_taken()
    {
        string[] check = ["check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml")];
        var plain = await Programs.FoamRules(check);
        var spanish = Programs.FoamRulesStart(check);
        (spanish.Environment["LANG"], spanish.Environment["LC_ALL"], spanish.Environment["LANGUAGE"]) = ("es_ES.UTF-8", "es_ES.UTF-8", "es");
        using var process = System.Diagnostics.Process.Start(spanish)!;
        Assert.Equal(plain.Output, await process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken));
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    [Fact]
    public async Task An_unknown_language_is_unusable_and_nothing_is_judged()
    {
        var ran = await Programs.FoamRules("check", Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), "--language", "xx");
        Assert.Equal((2, ""), (ran.Code, ran.Output));
        Assert.Contains("language: found `xx`; allowed: en, es, fr", ran.Errors, StringComparison.Ordinal);
    }
}
