using System.Text;
using FoamRules.Model;

namespace FoamRules.Service.Http;

/// <summary>A body, read.</summary>
/// <param name="Text">What stands in it.</param>
/// <param name="IsYaml">True where it is YAML.</param>
internal sealed record HttpBody(string Text, bool IsYaml)
{
    private static readonly string[] Yaml = ["application/yaml", "application/x-yaml", "text/yaml", "text/x-yaml"];
    private static readonly string[] Lines = ["application/x-ndjson", "application/ndjson", "application/jsonl"];
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false, throwOnInvalidBytes: true);

    /// <summary>Reads a body of one request.</summary>
    /// <exception cref="HttpRefusedException">It is of another type, too large or not text.</exception>
    public static async Task<HttpBody> Read(HttpRequest request)
    {
        var type = MediaTypeOf(request);
        var yaml = Yaml.Contains(type, StringComparer.OrdinalIgnoreCase);
        return yaml || string.Equals(type, "application/json", StringComparison.OrdinalIgnoreCase)
            ? new HttpBody(await ReadText(request, ServiceHost.MaxMessageBytes).ConfigureAwait(false), yaml)
            : throw OtherType(request, "application/json or application/yaml");
    }

    /// <summary>Reads a body of many requests, one a line.</summary>
    /// <exception cref="HttpRefusedException">It is of another type, too large or not text.</exception>
    public static async Task<string[]> ReadLines(HttpRequest request) =>
        Lines.Contains(MediaTypeOf(request), StringComparer.OrdinalIgnoreCase)
            ? (await ReadText(request, HttpDoor.MostBytesOfLines).ConfigureAwait(false)).Split('\n')
            : throw OtherType(request, "application/x-ndjson, one JSON object a line");

    private static string MediaTypeOf(HttpRequest request) => (request.ContentType ?? "").Split(';')[0].Trim();

    private static HttpRefusedException OtherType(HttpRequest request, Said allowed) => new(415, "CONTENT_TYPE", "The type of the content is another one",
        $"found {(string.IsNullOrEmpty(request.ContentType) ? (Said)"no Content-Type" : $"Content-Type {request.ContentType}")}; allowed: {allowed}");

    private static HttpRefusedException TooLarge(int most) => new(413, "TOO_LARGE", "It is too large", $"the body is larger than {most} bytes; send it in parts, or use gRPC for many plans");

    private static async Task<string> ReadText(HttpRequest request, int most)
    {
        if (request.Headers.ContentEncoding.ToString() is { Length: > 0 } coding && !coding.Equals("identity", StringComparison.OrdinalIgnoreCase))
        {
            throw new HttpRefusedException(415, "CONTENT_ENCODING", "The coding of the content is another one", $"found Content-Encoding {coding}; allowed: none; send the text as it is, or use gRPC, which takes gzip");
        }

        using var bytes = new MemoryStream();
        var buffer = new byte[64 * 1024];
        try
        {
            for (int read; (read = await request.Body.ReadAsync(buffer, request.HttpContext.RequestAborted).ConfigureAwait(false)) > 0;)
            {
                if (bytes.Length + read > most)
                {
                    throw TooLarge(most);
                }

                bytes.Write(buffer, 0, read);
            }
        }
        catch (BadHttpRequestException error)
        {
            throw error.StatusCode == StatusCodes.Status413PayloadTooLarge ? TooLarge(most) : new HttpRefusedException(400, "BROKEN_BODY", "The body cannot be read", "the body ends early or is not sent as HTTP asks");
        }

        try
        {
            return Utf8.GetString(bytes.GetBuffer(), 0, (int)bytes.Length).TrimStart('\uFEFF');
        }
        catch (DecoderFallbackException)
        {
            throw new HttpRefusedException(400, "NOT_UTF8", "The text cannot be read", "the body is not text in UTF-8");
        }
    }
}
