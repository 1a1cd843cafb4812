using FoamRules.Contracts;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Grpc.Core;

namespace FoamRules.Service.Tests;

/// <summary>The client of the package, against a service that is not always there.</summary>
public sealed class ClientTests(RunningWeb web) : IClassFixture<RunningWeb>
{
    private static readonly ReadOptions Now = new(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));

    [Fact]
    public async Task A_call_is_sent_again_while_the_service_is_not_available()
    {
        using var line = new Line { Failures = 2 };
        using var client = Client(line);
        var report = await client.CheckAsync(Example());
        Assert.NotEmpty(report.Judgements);
        Assert.Equal(3, line.Sent);
    }

    [Fact]
    public async Task It_gives_up_after_the_attempts_that_the_options_name_and_at_once_where_sending_again_cannot_help()
    {
        using var dead = new Line { Failures = int.MaxValue };
        using var client = Client(dead);
        Assert.Equal(StatusCode.Unavailable, (await Assert.ThrowsAsync<RpcException>(() => client.CheckAsync(Example()))).StatusCode);
        Assert.Equal(4, dead.Sent);
        using var line = new Line();
        using var other = Client(line);
        Assert.Equal(StatusCode.InvalidArgument, (await Assert.ThrowsAsync<RpcException>(() => other.CheckAsync(new Plan()))).StatusCode);
        Assert.Equal(1, line.Sent);
    }

    [Fact]
    public async Task A_call_without_a_deadline_has_one()
    {
        using var silent = new Line { Silent = true };
        using var client = new FoamRulesClient(Address, new FoamRulesClientOptions { Handler = silent, Deadline = TimeSpan.FromMilliseconds(50) });
        Assert.Equal(StatusCode.DeadlineExceeded, (await Assert.ThrowsAsync<RpcException>(() => client.CheckAsync(Example()))).StatusCode);
    }

    [Fact]
    public async Task A_submission_whose_answer_was_lost_is_done_once_under_the_key_that_its_request_was_given()
    {
        using var line = new Line { AnswersLost = 1 };
        using var client = new FoamRulesClient(Address, new FoamRulesClientOptions { Handler = line, Actor = "Zoë Óffice", Role = "office" });
        var plan = Example();
        plan.Name = $"A job of its own {Guid.NewGuid():N}";
        var request = new SubmitPlanRequest { Plan = plan };
        var first = await client.Reviews.SubmitPlanAsync(request);
        Assert.Equal(2, line.Sent);
        Assert.NotEmpty(request.IdempotencyKey);
        Assert.Equal("Zoë Óffice", first.Receipt.Actor);
        Assert.Equal(first, await client.Reviews.SubmitPlanAsync(request));
        Assert.Single((await client.Reviews.ListReviewsAsync(new ListReviewsRequest { Text = plan.Name })).Reviews);
    }

    private Uri Address => new($"http://{web.Channel.Target}");

    private FoamRulesClient Client(HttpMessageHandler handler) => new(Address, new FoamRulesClientOptions { Handler = handler });

    private static Plan Example() => PlanReader.ReadText(File.ReadAllText(Repository.PathOf("shared", "plans", "cold-store-dock.yaml")), null, Now).Message!;

    // A line that breaks before a request is sent, or after it was answered, or never says anything.
    private sealed class Line() : DelegatingHandler(new SocketsHttpHandler())
    {
        private int _sent;

        public int Failures { get; init; }

        public int AnswersLost { get; init; }

        public bool Silent { get; init; }

        public int Sent => _sent;

        private static HttpRequestException Broken() => new("the line broke", new System.Net.Sockets.SocketException((int)System.Net.Sockets.SocketError.ConnectionReset));

        protected override async Task<HttpResponseMessage> SendAsync(HttpRequestMessage request, CancellationToken cancellationToken)
        {
            var attempt = Interlocked.Increment(ref _sent);
            if (Silent)
            {
                await Task.Delay(Timeout.Infinite, cancellationToken);
            }

            if (attempt <= Failures)
            {
                throw Broken();
            }

            var response = await base.SendAsync(request, cancellationToken);
            if (attempt <= AnswersLost)
            {
                await response.Content.ReadAsByteArrayAsync(cancellationToken);
                response.Dispose();
                throw Broken();
            }

            return response;
        }
    }
}
