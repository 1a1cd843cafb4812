using System.Text.RegularExpressions;
using FoamRules.Testing;

namespace FoamRules.Records.Tests;

/// <summary>Reviews, replay and the log on the command line.</summary>
public sealed class CommandLineTests
{
    private static readonly string Sound = Repository.PathOf("shared", "plans", "cold-store-dock.yaml");

    public static TheoryData<StoreKind> Kinds => TestStore.Kinds;

    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_review_goes_its_way_on_the_command_line(StoreKind kind)
    {
        await using var store = await TestStore.Create(kind);
        await using (var server = await ChildServer.Start(store.Place))
        {
            string[] office = ["--server", server.Address, "--actor", "Olga Öffice", "--role", "office"];
            string[] safety = ["--server", server.Address, "--actor", "Sam Safety", "--role", "safety-officer"];
            string[] crew = ["--server", server.Address, "--actor", "Chris Crew", "--role", "crew-lead"];
            var submitted = await ChildServer.Run(["review", "submit", Sound, .. office]);
            Assert.True(submitted.Code == 0, submitted.Errors);
            var review = Regex.Match(submitted.Output, "on record: review ([0-9a-f]{32}), version 1, hash [0-9a-f]{64}").Groups[1].Value;
            Assert.NotEmpty(review);

            var refused = await ChildServer.Run(["review", "sign-off", review, "--seen", "1", .. office]);
            Assert.Equal(2, refused.Code);
            Assert.Contains("PermissionDenied", refused.Errors, StringComparison.Ordinal);
            var signed = await ChildServer.Run(["review", "sign-off", review, "--seen", "1", .. safety]);
            Assert.True(signed.Code == 0, signed.Errors);
            // It is checked at this machine's own time, without a reading: whatever it finds, it is no go.
            var preStart = await ChildServer.Run(["review", "pre-start", review, .. crew]);
            Assert.True(preStart.Code is 10 or 20, preStart.Errors);
            Assert.Matches("^(HOLD|STOP) against revision 1", preStart.Output);
            Assert.Contains(review, (await ChildServer.Run(["review", "list", "--text", "dock", .. crew])).Output, StringComparison.Ordinal);
            Assert.Equal("", (await ChildServer.Run(["review", "list", "--text", "elsewhere", .. crew])).Output);
            var shown = await ChildServer.Run(["review", "show", review, .. crew]);
            Assert.Contains("Olga Öffice (office, stated): submitted the plan", shown.Output, StringComparison.Ordinal);
            Assert.Contains("Sam Safety (safety officer, stated): signed off revision 1", shown.Output, StringComparison.Ordinal);
        }

        var verified = await ChildServer.Run("log", "verify", "--store", store.Place);
        Assert.True(verified.Code == 0, verified.Output + verified.Errors);
        var last = Regex.Match(verified.Output, "3 entries, 0 problems; the last is (3:[0-9a-f]{64})").Groups[1].Value;
        Assert.Equal(0, (await ChildServer.Run("log", "verify", "--store", store.Place, "--known", last)).Code);
        Assert.Equal(20, (await ChildServer.Run("log", "verify", "--store", store.Place, "--known", "3:" + new string('0', 64))).Code);
        Assert.Equal(3, (await ChildServer.Run("log", "export", "--store", store.Place)).Output.Split('\n', StringSplitOptions.RemoveEmptyEntries).Length);
        var replayed = await ChildServer.Run("replay", "--store", store.Place);
        Assert.True(replayed.Code == 0, replayed.Output + replayed.Errors);
        Assert.Contains("2 came out byte for byte, 0 did not", replayed.Output, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("log", "verify")]
    [InlineData("log", "verify", "--store", "no-such-file.db")]
    [InlineData("log", "verify", "--store", "no-such-file.db", "--known", "nonsense")]
    [InlineData("log", "export", "--store", "Host=127.0.0.1;Port=1;Username=nobody;Timeout=2")]
    [InlineData("replay")]
    [InlineData("replay", "nothing", "--store", "no-such-file.db")]
    [InlineData("serve", "--port", "0", "--store", "/no/such/folder/records.db")]
    [InlineData("review", "list", "--server", "nonsense", "--actor", "Me", "--role", "office")]
    [InlineData("review", "list", "--server", "http://127.0.0.1:1", "--actor", "Me", "--role", "boss")]
    [InlineData("review", "list", "--server", "http://127.0.0.1:1", "--actor", "Me", "--role", "office")]
    [InlineData("review", "submit", "no-such-plan.yaml", "--server", "http://127.0.0.1:1", "--actor", "Me", "--role", "office")]
    public async Task What_cannot_be_used_is_answered_with_2_and_a_reason(params string[] arguments)
    {
        var ran = await ChildServer.Run(arguments);
        Assert.Equal(2, ran.Code);
        Assert.NotEmpty(ran.Errors);
        Assert.DoesNotContain("   at ", ran.Errors, StringComparison.Ordinal);
        Assert.False(File.Exists("no-such-file.db"));
    }
}
