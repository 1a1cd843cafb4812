using System.IO.Compression;
using Grpc.Core;
using Grpc.Net.Compression;

namespace FoamRules.Access;

/// <summary>gzip that ends where a message has unpacked to more than is taken: a few bytes must not become gigabytes.</summary>
/// <param name="mostBytes">The largest message that is taken, unpacked.</param>
public sealed class BoundedGzip(int mostBytes) : ICompressionProvider
{
    private readonly GzipCompressionProvider _gzip = new(CompressionLevel.Fastest);

    /// <inheritdoc/>
    public string EncodingName => _gzip.EncodingName;

    /// <inheritdoc/>
    public Stream CreateCompressionStream(Stream stream, CompressionLevel? compressionLevel) => _gzip.CreateCompressionStream(stream, compressionLevel);

    /// <inheritdoc/>
    public Stream CreateDecompressionStream(Stream stream) => new Bounded(_gzip.CreateDecompressionStream(stream), mostBytes);

    private sealed class Bounded(Stream inner, int mostBytes) : Stream
    {
        private long _read;

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => _read; set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count) => Counted(inner.Read(buffer, offset, count));

        public override int Read(Span<byte> buffer) => Counted(inner.Read(buffer));

        public override async Task<int> ReadAsync(byte[] buffer, int offset, int count, CancellationToken cancellationToken) =>
            Counted(await inner.ReadAsync(buffer.AsMemory(offset, count), cancellationToken).ConfigureAwait(false));

        public override async ValueTask<int> ReadAsync(Memory<byte> buffer, CancellationToken cancellationToken = default) =>
            Counted(await inner.ReadAsync(buffer, cancellationToken).ConfigureAwait(false));

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();

        protected override void Dispose(bool disposing)
        {
            inner.Dispose();
            base.Dispose(disposing);
        }

        private int Counted(int read)
        {
            _read += read;
            return _read <= mostBytes ? read
                : throw new RpcException(new Status(StatusCode.ResourceExhausted, $"the message unpacks to more than {mostBytes} bytes"));
        }
    }
}
