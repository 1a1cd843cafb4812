using System.Net;
using FoamRules.Access;
using FoamRules.Contracts.V1;
using Grpc.Core;

namespace FoamRules.Service.Tests.Access;

/// <summary>The clock of the service is set forwards or back by an hour: who may call, and how often.</summary>
public sealed class ClockJumpTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_key_is_taken_until_its_time_by_whatever_the_clock_says_now()
    {
        var (clock, key) = (new MovedClock(), ApiKey.Make());
        var options = new ApiKeyOptions { Name = "tool", Roles = ["office"], Hash = ApiKey.HashOf(key), Until = clock.GetUtcNow().AddMinutes(30).ToString("O") };
        await using var service = await Guarded.Start(_ => new AccessSettings { Certificate = Guarded.Server, ApiKeys = ApiKeys.Read([options], null, out var _) }, clock: clock);
        await List(service, key);
        clock.Ahead = TimeSpan.FromHours(1);
        await Guarded.Refused(StatusCode.Unauthenticated, "NOT_PROVEN", () => List(service, key));
        clock.Ahead = TimeSpan.FromHours(-1);
        await List(service, key);
    }

    [Fact]
    public async Task No_jump_gives_a_caller_more_calls_or_takes_those_it_has()
    {
        var (clock, key) = (new MovedClock(), ApiKey.Make());
        await using var service = await Guarded.Start(_ => Guarded.WithKeys((key, "tool", ["office"])) with { Limits = new CallerLimits { CallsPerMinute = 1, Burst = 2 } }, clock: clock);
        await List(service, key);
        clock.Ahead = TimeSpan.FromHours(-1);
        await List(service, key);
        clock.Ahead = TimeSpan.FromHours(1);
        await Guarded.Refused(StatusCode.ResourceExhausted, "TOO_MANY_CALLS", () => List(service, key));
    }

    [Fact]
    public async Task A_call_is_not_ended_by_a_jump()
    {
        var clock = new MovedClock();
        await using var service = await Guarded.Start(_ => new AccessSettings(), clock: clock);
        using var stream = new PlanCheckService.PlanCheckServiceClient(service.Channel()).CheckPlans(cancellationToken: Cancellation);
        await stream.ResponseHeadersAsync;
        foreach (var hours in new[] { 2, -2 })
        {
            clock.Ahead = TimeSpan.FromHours(hours);
            await stream.RequestStream.WriteAsync(new CheckPlansRequest { Sequence = hours }, Cancellation);
            Assert.True(await stream.ResponseStream.MoveNext(Cancellation));
            Assert.Equal(hours, stream.ResponseStream.Current.Sequence);
        }
    }

    [Theory]
    [InlineData(1, true)]
    [InlineData(12, false)]
    [InlineData(-1, false)]
    public async Task What_a_browser_keeps_lasts_no_longer_than_half_a_day_whatever_happens_to_the_clock(int hours, bool lasts)
    {
        var (clock, key) = (new MovedClock(), ApiKey.Make());
        await using var service = await Guarded.Start(_ => Guarded.WithKeys((key, "Office", ["office"])), webPort: 0, clock);
        var browser = service.Http();
        browser.DefaultRequestHeaders.Add("Accept", "text/html");
        await SignInTests.SignIn(browser, key);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/", Cancellation)).StatusCode);
        clock.Ahead = TimeSpan.FromHours(hours);
        // Asked for the key again where it is not kept any more.
        Assert.Equal(lasts ? HttpStatusCode.OK : HttpStatusCode.Redirect, (await browser.GetAsync("/", Cancellation)).StatusCode);
    }

    private static Task<ListReviewsResponse> List(Guarded service, string key) =>
        service.Reviews().ListReviewsAsync(new ListReviewsRequest(), new Metadata { { "x-api-key", key } }, cancellationToken: Cancellation).ResponseAsync;

    // The system's clock, set by hand; what is counted and not read off stays as it is, as on a machine.
    private sealed class MovedClock : TimeProvider
    {
        public TimeSpan Ahead { get; set; }

        public override DateTimeOffset GetUtcNow() => base.GetUtcNow() + Ahead;
    }
}
