using System.Globalization;
using System.Net.Sockets;
using System.Text;
using FoamRules.Contracts;
using FoamRules.Contracts.V1;
using Grpc.Core;
using Grpc.Net.Client;

namespace FoamRules.Trial;

/// <summary>Callers that misbehave: slow ones, those that open a stream and say nothing, those that give up.</summary>
internal static class AbuseTrial
{
    private const int SlowConnections = 200;
    private const int SilentStreams = 40;
    private const int GivenUp = 500;

    public static async Task<bool> Run(string folder)
    {
        using var instance = await Instance.Start(folder, 5580, null);
        using var client = new FoamRulesClient(instance.Address);
        var held = true;
        await client.CheckAsync(TrialPlans.All[0]);
        Tell("before");

        var slow = new List<TcpClient>();
        for (var i = 0; i < SlowConnections; i++)
        {
            var connection = new TcpClient();
            await connection.ConnectAsync("127.0.0.1", i % 2 == 0 ? instance.Port : instance.Port + 1);
            // Half of a request, and then nothing.
            await connection.GetStream().WriteAsync(Encoding.ASCII.GetBytes(i % 2 == 0 ? "PRI * HTTP/2.0\r\n\r\nSM\r\n" : "POST /v1/plans:check HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 10000\r\n\r\n{"));
            slow.Add(connection);
        }

        await Answers($"{SlowConnections} connections that stand still");

        // A caller of its own for each few: one caller has so many calls at once, and no more.
        using var channel = GrpcChannel.ForAddress(instance.Address);
        var streams = Enumerable.Range(0, SilentStreams).Select(_ => new PlanCheckService.PlanCheckServiceClient(channel).CheckPlans()).ToList();
        await Task.Delay(TimeSpan.FromSeconds(1));
        await Answers($"and {SilentStreams} streams that are open and silent");
        foreach (var stream in streams)
        {
            stream.Dispose();
        }

        var given = 0;
        await Task.WhenAll(Enumerable.Range(0, 8).Select(async caller =>
        {
            for (var i = 0; i < GivenUp / 8; i++)
            {
                using var impatient = new CancellationTokenSource(TimeSpan.FromMilliseconds(1 + (((i * 8) + caller) % 40)));
                try
                {
                    await client.Plans.CheckPlanAsync(new CheckPlanRequest { Plan = TrialPlans.All[1] }, cancellationToken: impatient.Token);
                }
                catch (RpcException error) when (error.StatusCode == StatusCode.Cancelled)
                {
                    Interlocked.Increment(ref given);
                }
                catch (RpcException error) when (error.StatusCode == StatusCode.ResourceExhausted)
                {
                    await Task.Delay(TimeSpan.FromMilliseconds(100));
                }
            }
        }));
        await Answers($"and {given} calls that were given up");
        // A request whose rest does not come is ended by the server.
        await Task.Delay(TimeSpan.FromSeconds(30));
        var ended = 0;
        foreach (var connection in slow)
        {
            ended += await IsClosed(connection) ? 1 : 0;
            connection.Dispose();
        }

        await Answers($"{ended} of the slow connections ended by the server, the others by their caller");
        return held && instance.Lives && instance.Errors == 0;

        async Task Answers(string when)
        {
            using var patience = new CancellationTokenSource(TimeSpan.FromSeconds(30));
            try
            {
                await client.CheckAsync(TrialPlans.All[0], patience.Token);
            }
            catch (RpcException error)
            {
                held = false;
                Console.WriteLine($"an ordinary call was not answered: {error.StatusCode} {error.Status.Detail}");
            }

            Tell(when);
        }

        void Tell(string when) => Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{when}: {instance.ResidentMiB:0} MiB, {instance.Threads} threads, errors in the log: {instance.Errors} {instance.LastError}"));
    }

    private static async Task<bool> IsClosed(TcpClient connection)
    {
        using var patience = new CancellationTokenSource(TimeSpan.FromMilliseconds(20));
        var rest = new byte[4096];
        try
        {
            while (await connection.GetStream().ReadAsync(rest, patience.Token) > 0)
            {
            }

            return true;
        }
        catch (OperationCanceledException)
        {
            return false;
        }
        catch (IOException)
        {
            return true;
        }
    }
}
