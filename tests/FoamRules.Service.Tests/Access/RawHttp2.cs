using System.Buffers.Binary;
using System.Net.Sockets;
using System.Text;
using System.Threading.Channels;

namespace FoamRules.Service.Tests.Access;

/// <summary>A connection over HTTP/2 that sends what it is told, whole or not: what no client of a library does.</summary>
internal sealed class RawHttp2 : IDisposable
{
    private const byte DataFrame = 0, HeadFrame = 1, SettingsFrame = 4, PingFrame = 6, EndStream = 1, Ack = 1, EndHead = 4;
    private readonly TcpClient _client = new();
    private readonly SemaphoreSlim _writing = new(1);
    private readonly Channel<(byte Type, byte Flags, int Stream, byte[] Payload)> _answers = Channel.CreateUnbounded<(byte, byte, int, byte[])>();
    private NetworkStream _stream = null!;

    /// <summary>False: it takes no notice of what the server asks, as a connection whose other end hangs.</summary>
    public bool AnswersPings { get; set; } = true;

    /// <summary>Done when the server has ended the connection.</summary>
    public Task Ended { get; private set; } = null!;

    public static async Task<RawHttp2> Connect(Uri address)
    {
        var raw = new RawHttp2();
        await raw._client.ConnectAsync(address.Host, address.Port, TestContext.Current.CancellationToken);
        raw._stream = raw._client.GetStream();
        raw.Ended = raw.Listen();
        return raw;
    }

    public async Task Send(ReadOnlyMemory<byte> bytes)
    {
        await _writing.WaitAsync();
        try
        {
            await _stream.WriteAsync(bytes);
        }
        finally
        {
            _writing.Release();
        }
    }

    public Task Send(string text) => Send(Encoding.ASCII.GetBytes(text));

    /// <summary>The words with which a connection begins.</summary>
    /// <param name="window">How many bytes of an answer the server may send before it is asked for more.</param>
    public async Task Begin(int window = 65535)
    {
        await Send("PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n");
        var settings = new byte[6];
        settings[1] = 4;
        BinaryPrimitives.WriteInt32BigEndian(settings.AsSpan(2), window);
        await Send(Frame(SettingsFrame, 0, 0, settings));
    }

    /// <summary>The head of a call.</summary>
    public Task Head(int stream, string method, bool whole = true)
    {
        var head = new List<byte>();
        foreach (var (name, value) in new[] { (":method", "POST"), (":scheme", "http"), (":authority", "127.0.0.1"), (":path", method), ("content-type", "application/grpc"), ("te", "trailers") })
        {
            // As it is, in no table.
            head.AddRange([0, (byte)name.Length, .. Encoding.ASCII.GetBytes(name), (byte)value.Length, .. Encoding.ASCII.GetBytes(value)]);
        }

        return Send(Frame(HeadFrame, whole ? EndHead : (byte)0, stream, [.. head]));
    }

    /// <summary>A piece of the body.</summary>
    public Task Body(int stream, ReadOnlySpan<byte> bytes, bool last = false) => Send(Frame(DataFrame, last ? EndStream : (byte)0, stream, bytes));

    /// <summary>A whole call, up to the end of its answer. Its last head, in plain letters where the server sends it so.</summary>
    public async Task<string> Call(int stream, string method, ReadOnlyMemory<byte> body)
    {
        await Head(stream, method);
        await Body(stream, body.Span, last: true);
        await foreach (var (type, flags, of, payload) in _answers.Reader.ReadAllAsync(TestContext.Current.CancellationToken))
        {
            if (of == stream && (flags & EndStream) != 0 && type is HeadFrame or DataFrame)
            {
                return Encoding.Latin1.GetString(payload);
            }
        }

        throw new InvalidOperationException("the connection ended before the answer");
    }

    public void Dispose() => _client.Dispose();

    private static byte[] Frame(byte type, byte flags, int stream, ReadOnlySpan<byte> payload)
    {
        var frame = new byte[9 + payload.Length];
        (frame[0], frame[1], frame[2], frame[3], frame[4]) = ((byte)(payload.Length >> 16), (byte)(payload.Length >> 8), (byte)payload.Length, type, flags);
        BinaryPrimitives.WriteInt32BigEndian(frame.AsSpan(5), stream);
        payload.CopyTo(frame.AsSpan(9));
        return frame;
    }

    private async Task Listen()
    {
        var head = new byte[9];
        try
        {
            while (true)
            {
                await _stream.ReadExactlyAsync(head);
                var payload = new byte[(head[0] << 16) | (head[1] << 8) | head[2]];
                await _stream.ReadExactlyAsync(payload);
                if (head[3] == PingFrame && (head[4] & Ack) == 0 && AnswersPings)
                {
                    await Send(Frame(PingFrame, Ack, 0, payload));
                }

                _answers.Writer.TryWrite((head[3], head[4], BinaryPrimitives.ReadInt32BigEndian(head.AsSpan(5)), payload));
            }
        }
        catch (Exception error) when (error is IOException or EndOfStreamException or ObjectDisposedException)
        {
            _answers.Writer.Complete();
        }
    }
}
