using System.Globalization;
using Google.Rpc;
using Microsoft.AspNetCore.Http;

namespace FoamRules.Access;

/// <summary>
/// Says UNAVAILABLE where a request came without its whole message. The library says INTERNAL, by which a caller cannot know that nothing
/// was begun. A client sends such a request when its connection ends while it sends, and it begins again on another one.
/// </summary>
internal static class CutShort
{
    private const string Status = "grpc-status";
    private const string Message = "grpc-message";

    /// <summary>Runs the call.</summary>
    public static async Task Run(HttpContext context, RequestDelegate next)
    {
        await next(context).ConfigureAwait(false);
        var headers = context.Response.Headers;
        if (!context.Response.HasStarted && headers[Status] == ((int)Code.Internal).ToString(CultureInfo.InvariantCulture) && Uri.UnescapeDataString(headers[Message].ToString()) is "Incomplete message.")
        {
            headers.Remove(Status);
            headers.Remove(Message);
            await Refusal.Write(context, Code.Unavailable, "REQUEST_CUT_SHORT", "the request came without its whole message; nothing was done; send it again", TimeSpan.Zero).ConfigureAwait(false);
        }
    }
}
