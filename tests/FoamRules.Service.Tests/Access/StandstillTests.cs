using System.Net.Sockets;
using System.Text;
using FoamRules.Access;
using FoamRules.Contracts.V1;
using Google.Protobuf;
using Google.Rpc;

namespace FoamRules.Service.Tests.Access;

/// <summary>Connections that stand still, or move so slowly that they might as well.</summary>
public sealed class StandstillTests
{
    private const string Catalog = "/foamrules.v1.RuleCatalogService/ListRuleSets";
    private const string Health = "/grpc.health.v1.Health/Check";
    private const string Validate = "/foamrules.v1.PlanCheckService/ValidatePlan";
    private static readonly byte[] s_empty = [0, 0, 0, 0, 0];

    // Far longer than it takes: a test that waits for this has failed.
    private static readonly TimeSpan s_patience = TimeSpan.FromMinutes(1);

    [Fact]
    public async Task Whoever_stands_still_is_ended_by_the_server_and_whoever_is_only_quiet_is_not()
    {
        await using var service = await Guarded.Start(_ => new AccessSettings { Limits = new CallerLimits { Standstill = TimeSpan.FromSeconds(4) } }, webPort: 0);
        using var quiet = await RawHttp2.Connect(service.Address);
        await quiet.Begin();
        await quiet.Call(1, Catalog, s_empty);
        (string What, Func<RawHttp2, Task> Do)[] still =
        [
            ("says nothing", _ => Task.CompletedTask),
            ("stops within the words with which a connection begins", raw => raw.Send("PRI * HTTP/2.0\r\n\r\nSM\r\n")),
            ("begins and makes no call", raw => raw.Begin()),
            ("stops within the head of its first call", async raw =>
            {
                await raw.Begin();
                await raw.Head(1, Catalog, whole: false);
            }),
            ("stops within the head of its second call", async raw =>
            {
                await raw.Begin();
                await raw.Call(1, Catalog, s_empty);
                await raw.Head(3, Catalog, whole: false);
            }),
            ("answers no ping after its call", async raw =>
            {
                raw.AnswersPings = false;
                await raw.Begin();
                await raw.Call(1, Catalog, s_empty);
            }),
            ("stops within the body of its call", async raw =>
            {
                await raw.Begin();
                await raw.Head(1, Validate);
                await raw.Body(1, [0, 0, 0, 1, 0, 1]);
            }),
            ("sends its body a byte at a time", async raw =>
            {
                await raw.Begin();
                await raw.Head(1, Validate);
                await raw.Body(1, [0, 0, 0, 1, 0]);
                while (!raw.Ended.IsCompleted)
                {
                    await Task.WhenAny(raw.Ended, Task.Delay(200));
                    await Record.ExceptionAsync(() => raw.Body(1, [1]));
                }
            }),
        ];
        await Task.WhenAll([Web(service, ""), Web(service, "GET / HTTP/1.1\r\nHost: 127"), .. still.Select(async one =>
        {
            using var raw = await RawHttp2.Connect(service.Address);
            await one.Do(raw);
            await Waits(raw.Ended, one.What);
        })]);
        Assert.False(quiet.Ended.IsCompleted);
        await quiet.Call(3, Catalog, s_empty);
    }

    [Fact]
    public async Task Without_a_further_request_a_connection_is_kept_no_longer_than_any_call_may_last()
    {
        var limits = new CallerLimits { Standstill = TimeSpan.FromSeconds(3), LongestCall = TimeSpan.FromSeconds(3), LongestStream = TimeSpan.FromSeconds(3) };
        await using var service = await Guarded.Start(_ => new AccessSettings { Limits = limits });
        // Nothing else ends this one, which answers pings.
        using var idle = await RawHttp2.Connect(service.Address);
        await idle.Begin();
        await idle.Call(1, Catalog, s_empty);
        // Several: whether the server's least rate ends one or loses count of it is for the machine to say.
        await Task.WhenAll([Waits(idle.Ended, "asks for nothing more"), .. Enumerable.Range(0, 5).Select(async _ =>
        {
            using var raw = await RawHttp2.Connect(service.Address);
            await raw.Begin(window: 0);
            await raw.Head(1, Health);
            await raw.Body(1, s_empty, last: true);
            await Waits(raw.Ended, "takes nothing of its answer");
        })]);
    }

    [Fact]
    public async Task A_request_that_came_in_part_is_one_to_send_again()
    {
        await using var service = await Guarded.Start(new AccessSettings());
        var message = new ValidatePlanRequest { Plan = new Plan { Name = "a plan" } }.ToByteArray();
        byte[] whole = [0, 0, 0, 0, (byte)message.Length, .. message];
        foreach (var part in new[] { 0, 3, whole.Length - 1 })
        {
            // A connection for each: what a head has said before, the next one only points to.
            using var raw = await RawHttp2.Connect(service.Address);
            await raw.Begin();
            var status = Status.Parser.ParseFrom(Details(await raw.Call(1, Validate, whole.AsMemory(0, part))));
            Assert.Equal(((int)Code.Unavailable, "REQUEST_CUT_SHORT"), (status.Code, status.GetDetail<ErrorInfo>()!.Reason));
        }
    }

    // The details travel in base 64.
    private static byte[] Details(string head)
    {
        const string name = "grpc-status-details-bin";
        var at = head.IndexOf(name, StringComparison.Ordinal);
        Assert.True(at >= 0, head);
        var rest = new string([.. head[(at + name.Length + 1)..].SkipWhile(c => !char.IsAsciiLetterOrDigit(c)).TakeWhile(c => char.IsAsciiLetterOrDigit(c) || c is '+' or '/')]);
        return Convert.FromBase64String(rest + new string('=', (4 - (rest.Length % 4)) % 4));
    }

    private static async Task Web(Guarded service, string begins)
    {
        using var client = new TcpClient();
        await client.ConnectAsync(service.Web.Host, service.Web.Port, TestContext.Current.CancellationToken);
        await client.GetStream().WriteAsync(Encoding.ASCII.GetBytes(begins), TestContext.Current.CancellationToken);
        await Waits(ToEnd(), $"HTTP/1.1 `{begins}`");

        async Task ToEnd()
        {
            var rest = new byte[4096];
            while (await client.GetStream().ReadAsync(rest) > 0)
            {
            }
        }
    }

    private static async Task Waits(Task ended, string what)
    {
        var error = await Record.ExceptionAsync(() => ended.WaitAsync(s_patience));
        Assert.False(error is TimeoutException, $"not ended: a connection that {what}");
    }
}
