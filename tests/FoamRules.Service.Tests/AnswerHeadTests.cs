using System.Net.Sockets;
using FoamRules.Contracts;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using FoamRules.Testing;
using Serilog.Core;
using Serilog.Events;

namespace FoamRules.Service.Tests;

/// <summary>The head of an answer goes with the answer: what has begun to be answered is not sent again when the service dies.</summary>
public sealed class AnswerHeadTests : ILogEventSink
{
    void ILogEventSink.Emit(LogEvent logEvent)
    {
    }

    [Fact]
    public async Task A_call_whose_connection_dies_before_its_answer_is_sent_again()
    {
        using var clock = new HoldingClock();
        await using var service = ServiceHost.Build(new ServiceSettings { Engine = Repository.Engine, Log = this, Clock = clock });
        await service.StartAsync(TestContext.Current.CancellationToken);
        Socket? line = null;
        using var handler = new SocketsHttpHandler
        {
            ConnectCallback = async (context, cancellation) =>
            {
                line = new Socket(SocketType.Stream, ProtocolType.Tcp) { NoDelay = true };
                await line.ConnectAsync(context.DnsEndPoint, cancellation);
                return new NetworkStream(line, ownsSocket: true);
            },
        };
        using var client = new FoamRulesClient(new Uri(service.Urls.Single()), new FoamRulesClientOptions { Handler = handler });
        var now = new ReadOptions(new DateTimeOffset(2026, 4, 10, 9, 0, 0, TimeSpan.Zero));
        var plan = PlanReader.ReadText(await File.ReadAllTextAsync(Repository.PathOf("shared", "plans", "cold-store-dock.yaml"), TestContext.Current.CancellationToken), null, now).Message!;
        // The service asks the time while it works on a call.
        clock.Hold();
        var call = client.CheckAsync(plan, TestContext.Current.CancellationToken);
        await clock.Asked.WaitAsync(TestContext.Current.CancellationToken);
        // What was written before on the same connection comes before the answer to this: a head that did not wait would be there now.
        await client.Catalog.ListRuleSetsAsync(new ListRuleSetsRequest(), cancellationToken: TestContext.Current.CancellationToken);
        line!.Close(0);
        clock.LetGo();
        Assert.NotEmpty((await call).Judgements);
    }

    private sealed class HoldingClock : TimeProvider, IDisposable
    {
        private readonly ManualResetEventSlim _go = new(true);
        private readonly TaskCompletionSource _asked = new(TaskCreationOptions.RunContinuationsAsynchronously);
        private int _holds;

        public Task Asked => _asked.Task;

        public void Hold()
        {
            _go.Reset();
            _holds = 1;
        }

        public void LetGo() => _go.Set();

        public override DateTimeOffset GetUtcNow()
        {
            // The first who asks waits; the others do not.
            if (Interlocked.Exchange(ref _holds, 0) == 1)
            {
                _asked.SetResult();
                _go.Wait();
            }

            return base.GetUtcNow();
        }

        public void Dispose() => _go.Dispose();
    }
}
