using System.Collections;
using System.Text.RegularExpressions;
using FoamRules.Contracts.V1;
using FoamRules.Testing;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

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
    public async Task It_judges_made_up_plans_alike_in_which_every_list_is_used()
    {
        using var folder = new TemporaryFolder();
        var plans = Enumerable.Range(7000, 80).Select(seed => RandomPlans.Make((ulong)seed, 1 + (seed % 4))).ToList();
        var used = new HashSet<string>();
        plans.ForEach(plan => Use(plan, used));
        // Where a plan does not say when, it is now, and no longer so for the second of the two.
        plans.ForEach(plan => plan.JudgedAt ??= new Timestamp { Seconds = 1_776_000_000 });
        // Which rule sets are chosen would be a name that no rule set has.
        Assert.Equal(["foamrules.v1.Plan.rule_sets"], Lists(Plan.Descriptor, []).Except(used));
        await Same(["check", .. plans.Select((plan, i) => folder.Write($"{i}.json", JsonFormatter.Default.Format(plan))), "--format", "jsonl"]);
    }

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

    private static void Use(IMessage message, HashSet<string> used)
    {
        foreach (var field in message.Descriptor.Fields.InDeclarationOrder())
        {
            var value = field.Accessor.GetValue(message);
            if (field.IsRepeated && ((IList)value).Count > 0)
            {
                used.Add(field.FullName);
            }

            foreach (var child in field.IsRepeated ? ((IList)value).OfType<IMessage>() : value is IMessage one ? [one] : [])
            {
                Use(child, used);
            }
        }
    }

    private static HashSet<string> Lists(MessageDescriptor type, HashSet<MessageDescriptor> seen) => seen.Add(type)
        ? [.. type.Fields.InDeclarationOrder().Where(field => field.IsRepeated).Select(field => field.FullName), .. type.Fields.InDeclarationOrder().Where(field => field.FieldType == FieldType.Message).SelectMany(field => Lists(field.MessageType, seen))]
        : [];

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
