using System.Net;
using Grpc.Core;

namespace FoamRules.Service.Http;

/// <summary>A call that came over HTTP with JSON, as the methods and interceptors of gRPC see it.</summary>
internal sealed class HttpCallContext : ServerCallContext
{
    // Under this name the gRPC library looks for the request of a call (GetHttpContext).
    private const string HttpContextKey = "__HttpContext";

    private readonly HttpContext _http;
    private readonly string _method;
    private readonly Dictionary<object, object> _state = [];
    private readonly Lazy<Metadata> _headers;

    public HttpCallContext(HttpContext http, string method)
    {
        _http = http;
        _method = method;
        _state[HttpContextKey] = http;
        _headers = new Lazy<Metadata>(() => HeadersOf(http.Request));
    }

    protected override string MethodCore => _method;

    protected override string HostCore => _http.Request.Host.Value ?? "";

    protected override string PeerCore => _http.Connection.RemoteIpAddress is { } address ? new IPEndPoint(address, _http.Connection.RemotePort).ToString() : "unknown";

    protected override DateTime DeadlineCore => DateTime.MaxValue;

    protected override Metadata RequestHeadersCore => _headers.Value;

    protected override CancellationToken CancellationTokenCore => _http.RequestAborted;

    protected override Metadata ResponseTrailersCore { get; } = [];

    protected override Status StatusCore { get; set; }

    protected override WriteOptions? WriteOptionsCore { get; set; }

    protected override AuthContext AuthContextCore { get; } = new(null, []);

    protected override IDictionary<object, object> UserStateCore => _state;

    protected override ContextPropagationToken CreatePropagationTokenCore(ContextPropagationOptions? options) => throw new NotSupportedException("calls over HTTP have no deadline to hand on");

    protected override Task WriteResponseHeadersAsyncCore(Metadata responseHeaders)
    {
        foreach (var header in responseHeaders.Where(header => !header.IsBinary))
        {
            _http.Response.Headers[header.Key] = header.Value;
        }

        return Task.CompletedTask;
    }

    private static Metadata HeadersOf(HttpRequest request)
    {
        var headers = new Metadata();
        foreach (var (name, values) in request.Headers)
        {
            var key = name.ToLowerInvariant();
            if (!key.All(c => char.IsAsciiLetterLower(c) || char.IsAsciiDigit(c) || c is '-' or '_' or '.'))
            {
                continue;
            }

            foreach (var value in values)
            {
                Add(headers, key, value ?? "");
            }
        }

        return headers;
    }

    // Names that end in -bin carry bytes in Base64, as they do over gRPC.
    private static void Add(Metadata headers, string key, string value)
    {
        if (!key.EndsWith(Metadata.BinaryHeaderSuffix, StringComparison.Ordinal))
        {
            headers.Add(key, value);
            return;
        }

        var bytes = new byte[value.Length];
        if (Convert.TryFromBase64String(value.PadRight((value.Length + 3) / 4 * 4, '='), bytes, out var length))
        {
            headers.Add(key, bytes[..length]);
        }
    }
}
