using System.Text.RegularExpressions;
using FoamRules.Testing;

namespace FoamRules.EndToEnd.Tests;

/// <summary>The program compiled for one kind of machine says what the whole program says, and of what it leaves out that it does.</summary>
public sealed partial class NativeProgramTests
{
    private static readonly string? Program = Environment.GetEnvironmentVariable("FOAMRULES_NATIVE");

    [Theory]
    [MemberData(nameof(GoldenTests.Reports), MemberType = typeof(GoldenTests))]
    public async Task It_writes_the_same_reports(string plan, string kind, string[] more)
    {
        var ran = await Native(["check", Repository.PathOf("shared", "plans", $"{plan}.yaml"), .. more]);
        Assert.True(ran.Errors.Length == 0, ran.Errors);
        Assert.Equal(await File.ReadAllTextAsync(GoldenTests.PathOf(plan, kind), TestContext.Current.CancellationToken), ran.Output);
    }

    [Theory]
    [InlineData("json")]
    [InlineData("sarif")]
    public async Task It_writes_the_same_for_programs(string format) =>
        await Same("check", Repository.PathOf("shared", "plans", "cold-store-dock-broken.yaml"), "--remedies", "--format", format);

    [Fact]
    public async Task It_knows_the_rule_sets()
    {
        await Same("rules");
        await Same("rule-set", "check", Repository.PathOf("rulesets"));
        await Same("schema", "plan");
    }

    [Fact]
    public async Task It_calculates()
    {
        foreach (var example in Directory.EnumerateFiles(Repository.PathOf("shared", "calculations"), "*.yaml"))
        {
            await Same("calc", Path.GetFileNameWithoutExtension(example), "--input", example);
        }
    }

    [Fact]
    public async Task It_refuses_a_plan_in_the_same_words()
    {
        using var folder = new TemporaryFolder();
        var plan = folder.Write("plan.yaml", "name: 3\nareas: [ { id: a, enclosure: maybe } ]\nwork: none\n");
        Assert.Equal(2, (await Same("check", plan)).Code);
    }

    [Theory]
    [InlineData("serve", "--port", "6080")]
    [InlineData("key", "new", "--name", "office")]
    [InlineData("review", "list")]
    [InlineData("replay")]
    [InlineData("log", "verify")]
    [InlineData("recheck", "--store", "records.db")]
    public async Task What_it_leaves_out_it_says(params string[] arguments)
    {
        var ran = await Native(arguments);
        Assert.Equal((2, "", $"this build checks, calculates and knows the rule sets; the whole program does `{arguments[0]}`\n"), (ran.Code, ran.Output, ran.Errors));
    }

    private static async Task<Ran> Same(params string[] arguments)
    {
        var native = await Native(arguments);
        Assert.Equal(WithoutCommit(await Programs.FoamRules(arguments)), WithoutCommit(native));
        return native;
    }

    // The two may have been built of different commits, which stand behind the version.
    private static Ran WithoutCommit(Ran ran) => ran with { Output = Commit().Replace(ran.Output, "") };

    [GeneratedRegex(@"\+[0-9a-f]{40}")]
    private static partial Regex Commit();

    private static Task<Ran> Native(params string[] arguments)
    {
        Assert.SkipUnless(File.Exists(Program), "needs the native program, which .ci/native publishes, by its path in FOAMRULES_NATIVE");
        return Programs.Run(Program!, arguments);
    }
}
