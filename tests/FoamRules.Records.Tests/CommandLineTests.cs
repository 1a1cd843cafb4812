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

    [Fact]
    public async Task A_hold_is_released_a_plan_revised_an_area_re_entered_and_a_job_closed_out_on_the_command_line()
    {
        await using var store = await TestStore.Create(StoreKind.Sqlite);
        var (held, sound, built) = (Written(store, "held.json", Plans.Held()), Written(store, "sound.json", Plans.Sound()), Written(store, "built.json", Plans.AsBuilt()));
        await using var server = await ChildServer.Start(store.Place);
        string[] office = ["--server", server.Address, "--actor", "Olga Office", "--role", "office"];
        string[] safety = ["--server", server.Address, "--actor", "Sam Safety", "--role", "safety-officer"];
        string[] crew = ["--server", server.Address, "--actor", "Chris Crew", "--role", "crew-lead"];
        var submitted = await ChildServer.Run(["review", "submit", held, .. office]);
        Assert.True(submitted.Code == 10, submitted.Errors);
        var review = Regex.Match(submitted.Output, "on record: review ([0-9a-f]{32}), version 1").Groups[1].Value;

        string[] release = ["review", "release", review, "fill.wall-holds-pressure", "--subject", "posts", "--until", "2100-01-01T00:00Z", "--why", "walls are braced", "--seen", "1"];
        var wrong = await ChildServer.Run([.. release, "--as", "owner", .. safety]);
        Assert.Equal((2, true), (wrong.Code, wrong.Errors.Contains("the finding names engineer of record, safety officer, not `owner`", StringComparison.Ordinal)));
        Assert.Contains("version 2", (await Ran(0, [.. release, "--as", "safety officer", .. safety])).Output, StringComparison.Ordinal);
        var moved = await ChildServer.Run([.. release, "--as", "safety officer", .. safety]);
        Assert.Equal((2, true), (moved.Code, moved.Errors.Contains("the review is at version 2, not 1; since then: Sam Safety: released a hold (2)", StringComparison.Ordinal)));

        var revised = await Ran(0, ["review", "revise", review, sound, "--why", "braces drawn in", "--seen", "2", .. office]);
        Assert.Matches(@"work\[posts\].cavity_fill.wall_holds: \S+ .* -> \S+", revised.Output);
        await Ran(0, ["review", "sign-off", review, "--seen", "3", .. safety]);

        string[] enter = ["review", "re-enter", review, "dock", "--for", "occupants", "--cleaned", "yes", "--covers-off", "yes", "--odour", "no", "--as", "safety officer", "--seen", "4", .. safety];
        var now = DateTimeOffset.UtcNow;
        var early = await Ran(10, [.. enter, "--last-spray", now.AddHours(-1).ToString("O")]);
        Assert.Contains("dock is not released; air.occupants-return-long-enough: occupants are to come back", early.Errors, StringComparison.Ordinal);
        Assert.Contains("version 5", (await Ran(0, [.. enter, "--last-spray", now.AddHours(-25).ToString("O")])).Output, StringComparison.Ordinal);

        var closed = await Ran(null, ["review", "close-out", review, built, "--seen", "5", .. crew]);
        Assert.Contains("version 6", closed.Output, StringComparison.Ordinal);
        var shown = (await Ran(0, ["review", "show", review, .. crew])).Output;
        Assert.Contains("Sam Safety (safety officer, stated): released fill.wall-holds-pressure on posts as safety officer", shown, StringComparison.Ordinal);
        Assert.Contains("Olga Office (office, stated): revision 2: braces drawn in", shown, StringComparison.Ordinal);
        Assert.Contains("Sam Safety (safety officer, stated): released dock for occupants as safety officer", shown, StringComparison.Ordinal);
        Assert.Contains("Chris Crew (crew lead, stated): put the foam as built on record", shown, StringComparison.Ordinal);
    }

    private static string Written(TestStore store, string name, Contracts.V1.Plan plan)
    {
        var file = Path.Combine(store.Folder, name);
        File.WriteAllText(file, Google.Protobuf.JsonFormatter.Default.Format(plan));
        return file;
    }

    // Null: the foam as built may have findings, which are not the matter here.
    private static async Task<Ran> Ran(int? code, string[] arguments)
    {
        var ran = await ChildServer.Run(arguments);
        Assert.True(code is null ? ran.Code is 0 or 10 or 20 : ran.Code == code, $"{ran.Code}: {ran.Output}{ran.Errors}");
        return ran;
    }

    [Theory]
    [InlineData("log", "verify")]
    [InlineData("log", "verify", "--store", "no-such-file.db")]
    [InlineData("log", "verify", "--store", "no-such-file.db", "--known", "nonsense")]
    [InlineData("log", "export", "--store", "Host=127.0.0.1;Port=1;Username=nobody;Timeout=2")]
    [InlineData("replay")]
    [InlineData("replay", "nothing", "--store", "no-such-file.db")]
    [InlineData("serve", "--port", "0", "--store", "/no/such/folder/records.db")]
    [InlineData("serve", "--port", "0", "--listen", "0.0.0.0")]
    [InlineData("serve", "--port", "0", "--settings", "no-such-settings.json")]
    [InlineData("key", "new", "--name", "Someone", "--role", "boss")]
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
