using System.IO.Compression;
using System.Net;
using FoamRules.Access;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Google.Rpc;
using Grpc.Core;

namespace FoamRules.Service.Tests.Access;

/// <summary>What one caller may ask at most, and what a browser may be made to ask.</summary>
public sealed class LimitTests
{
    private static CancellationToken Cancellation => TestContext.Current.CancellationToken;

    [Fact]
    public async Task On_this_machine_callers_are_believed_and_with_tls_all_doors_share_one_port()
    {
        await using (var open = await Guarded.Start(new AccessSettings()))
        {
            await open.Reviews().ListReviewsAsync(new ListReviewsRequest(), Stated, cancellationToken: Cancellation);
        }

        await using var tls = await Guarded.Start(new AccessSettings { Certificate = Guarded.Server });
        await tls.Reviews().ListReviewsAsync(new ListReviewsRequest(), Stated, cancellationToken: Cancellation);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/healthz/live") { Version = HttpVersion.Version11 };
        using var answer = await tls.Http().SendAsync(request, Cancellation);
        Assert.Equal((HttpStatusCode.OK, HttpVersion.Version11), (answer.StatusCode, answer.Version));
        Assert.Equal("max-age=31536000", answer.Headers.GetValues("Strict-Transport-Security").Single());
    }

    [Fact]
    public async Task Too_many_calls_of_one_caller_are_refused_with_when_to_ask_again_and_others_are_not()
    {
        var (mine, yours) = (ApiKey.Make(), ApiKey.Make());
        await using var service = await Guarded.Start(Guarded.WithKeys((mine, "mine", ["office"]), (yours, "yours", ["office"])) with { Limits = new CallerLimits { CallsPerMinute = 1, Burst = 2 } });
        var client = service.Reviews();
        await client.ListReviewsAsync(new ListReviewsRequest(), new Metadata { { "x-api-key", mine } }, cancellationToken: Cancellation);
        await client.ListReviewsAsync(new ListReviewsRequest(), new Metadata { { "x-api-key", mine } }, cancellationToken: Cancellation);
        var refused = await Guarded.Refused(StatusCode.ResourceExhausted, "TOO_MANY_CALLS",
            () => client.ListReviewsAsync(new ListReviewsRequest(), new Metadata { { "x-api-key", mine } }, cancellationToken: Cancellation).ResponseAsync);
        Assert.InRange(refused.GetRpcStatus()!.GetDetail<RetryInfo>()!.RetryDelay.Seconds, 1, 60);
        using var request = new HttpRequestMessage(HttpMethod.Get, "/metrics") { Headers = { { "x-api-key", mine } } };
        using var answer = await service.Http().SendAsync(request, Cancellation);
        Assert.Equal(HttpStatusCode.TooManyRequests, answer.StatusCode);
        await Guarded.IsProblem(answer, "TOO_MANY_CALLS", "RESOURCE_EXHAUSTED");
        Assert.InRange(answer.Headers.RetryAfter!.Delta!.Value.TotalSeconds, 1, 60);
        await client.ListReviewsAsync(new ListReviewsRequest(), new Metadata { { "x-api-key", yours } }, cancellationToken: Cancellation);
    }

    [Fact]
    public async Task Too_many_calls_at_once_are_refused_until_one_ends()
    {
        await using var service = await Guarded.Start(new AccessSettings { Limits = new CallerLimits { CallsAtOnce = 1, Waiting = 0 } });
        using (var stream = new PlanCheckService.PlanCheckServiceClient(service.Channel()).CheckPlans(cancellationToken: Cancellation))
        {
            await stream.ResponseHeadersAsync;
            await Guarded.Refused(StatusCode.ResourceExhausted, "TOO_MANY_CALLS", () => service.Reviews().ListReviewsAsync(new ListReviewsRequest(), Stated, cancellationToken: Cancellation).ResponseAsync);
            await stream.RequestStream.CompleteAsync();
            Assert.False(await stream.ResponseStream.MoveNext(Cancellation));
        }

        // The place is free once the server has seen the end.
        while (true)
        {
            try
            {
                await service.Reviews().ListReviewsAsync(new ListReviewsRequest(), Stated, cancellationToken: Cancellation);
                return;
            }
            catch (RpcException error) when (error.StatusCode == StatusCode.ResourceExhausted)
            {
                await Task.Delay(10, Cancellation);
            }
        }
    }

    [Fact]
    public async Task A_call_ends_at_the_longest_time_whatever_the_caller_asks()
    {
        await using var service = await Guarded.Start(new AccessSettings { Limits = new CallerLimits { LongestStream = TimeSpan.FromMilliseconds(50) } });
        using var stream = new PlanCheckService.PlanCheckServiceClient(service.Channel()).CheckPlans(deadline: DateTime.UtcNow.AddHours(1), cancellationToken: Cancellation);
        var error = await Assert.ThrowsAsync<RpcException>(() => stream.ResponseStream.MoveNext(Cancellation));
        Assert.Equal((StatusCode.DeadlineExceeded, "the service gives a call no more than 0.05 seconds; ask for less at once"), (error.StatusCode, error.Status.Detail));
    }

    [Fact]
    public async Task A_packed_message_is_read_over_grpc_and_a_packed_body_is_refused_over_http()
    {
        await using var service = await Guarded.Start(new AccessSettings(), webPort: 0);
        var plan = PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), null, new ReadOptions(DateTimeOffset.UnixEpoch)).Message;
        var answer = await new PlanCheckService.PlanCheckServiceClient(service.Channel())
            .ValidatePlanAsync(new ValidatePlanRequest { Plan = plan }, new Metadata { { "grpc-internal-encoding-request", "gzip" } }, cancellationToken: Cancellation);
        Assert.Empty(answer.Violations);

        using var packed = new MemoryStream();
        await using (var gzip = new GZipStream(packed, CompressionLevel.Fastest, leaveOpen: true))
        {
            await gzip.WriteAsync("name: x"u8.ToArray(), Cancellation);
        }

        using var browser = new HttpClient { BaseAddress = service.Web };
        using var body = new ByteArrayContent(packed.ToArray()) { Headers = { { "Content-Type", "application/yaml" }, { "Content-Encoding", "gzip" } } };
        using var refused = await browser.PostAsync("/v1/plans:check", body, Cancellation);
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, refused.StatusCode);
        Assert.Contains("found Content-Encoding gzip; allowed: none", await refused.Content.ReadAsStringAsync(Cancellation), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_browser_that_is_refused_gets_a_page_in_its_language_with_the_same_headers()
    {
        await using var service = await Guarded.Start(new AccessSettings { Limits = new CallerLimits { CallsPerMinute = 1, Burst = 2 } }, webPort: 0);
        using var browser = new HttpClient { BaseAddress = service.Web, DefaultRequestHeaders = { { "Accept", "text/html,*/*;q=0.8" }, { "Accept-Language", "de,fr-CA;q=0.9,en;q=0.5" } } };
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/report") { Headers = { { "Sec-Fetch-Site", "cross-site" } } };
        using var refused = await browser.SendAsync(foreign, Cancellation);
        await IsPage(refused, HttpStatusCode.Forbidden, "L'appelant n'a pas le droit de le faire", "La demande vient d'une page d'un autre site ; rien n'a été fait.");
        for (var turn = 0; turn < 2; turn++)
        {
            (await browser.GetAsync("/", Cancellation)).Dispose();
        }

        using var often = await browser.GetAsync("/", Cancellation);
        await IsPage(often, HttpStatusCode.TooManyRequests, "Il n'y a pas de place pour cela", "Redemandez dans ");
        Assert.True(often.Headers.RetryAfter!.Delta > TimeSpan.Zero);

        async Task IsPage(HttpResponseMessage answer, HttpStatusCode status, params string[] words)
        {
            Assert.Equal((status, "text/html"), (answer.StatusCode, answer.Content.Headers.ContentType?.MediaType));
            Assert.Contains("frame-ancestors 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
            var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Cancellation));
            Assert.Contains("<html lang=\"fr-CA\">", page, StringComparison.Ordinal);
            Assert.All(words, word => Assert.Contains(word, page, StringComparison.Ordinal));
        }
    }

    [Fact]
    public async Task A_few_bytes_do_not_become_gigabytes()
    {
        await using var service = await Guarded.Start(new AccessSettings());
        var request = new ValidatePlanRequest { Plan = new Plan { Name = new string('x', 64 << 20) } };
        var client = new PlanCheckService.PlanCheckServiceClient(service.Channel());
        // 64 MB that travel as some 64 KB.
        var error = await Assert.ThrowsAsync<RpcException>(() => client.ValidatePlanAsync(request, new Metadata { { "grpc-internal-encoding-request", "gzip" } }, cancellationToken: Cancellation).ResponseAsync);
        Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
    }

    [Fact]
    public async Task What_a_page_of_another_site_makes_a_browser_send_is_refused()
    {
        await using var service = await Guarded.Start(new AccessSettings(), webPort: 0);
        using var browser = new HttpClient { BaseAddress = service.Web };
        (string Name, string Value)[] foreign = [("Origin", "https://elsewhere.example"), ("Origin", "null"), ("Sec-Fetch-Site", "cross-site"), ("Sec-Fetch-Site", "same-site"), ("Host", "rebound.example")];
        foreach (var (name, value) in foreign)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, "/") { Headers = { { name, value } } };
            using var refused = await browser.SendAsync(request, Cancellation);
            Assert.Equal((HttpStatusCode.Forbidden, value), (refused.StatusCode, value));
            await Guarded.IsProblem(refused, "FOREIGN_PAGE", "PERMISSION_DENIED");
        }

        using var own = new HttpRequestMessage(HttpMethod.Post, "/no-such-page") { Headers = { { "Origin", service.Web.GetLeftPart(UriPartial.Authority) }, { "Sec-Fetch-Site", "same-origin" } } };
        using var answer = await browser.SendAsync(own, Cancellation);
        Assert.NotEqual(HttpStatusCode.Forbidden, answer.StatusCode);
    }

    [Fact]
    public async Task Browsers_are_told_what_to_keep_to_and_large_headers_are_refused()
    {
        await using var service = await Guarded.Start(new AccessSettings(), webPort: 0);
        using var browser = new HttpClient { BaseAddress = service.Web };
        using var answer = await browser.GetAsync("/healthz/live", Cancellation);
        Assert.Contains("frame-ancestors 'none'", answer.Headers.GetValues("Content-Security-Policy").Single(), StringComparison.Ordinal);
        Assert.Equal(("nosniff", "DENY", "same-origin"), (answer.Headers.GetValues("X-Content-Type-Options").Single(), answer.Headers.GetValues("X-Frame-Options").Single(), answer.Headers.GetValues("Referrer-Policy").Single()));
        Assert.False(answer.Headers.Contains("Server"));
        using var large = new HttpRequestMessage(HttpMethod.Get, "/healthz/live") { Headers = { { "x-large", new string('x', 20_000) } } };
        using var refused = await browser.SendAsync(large, Cancellation);
        Assert.Equal(HttpStatusCode.RequestHeaderFieldsTooLarge, refused.StatusCode);
    }

    private static Metadata Stated => new() { { "x-actor", "Rae" }, { "x-role", "reader" } };
}
