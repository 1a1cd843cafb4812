using FoamRules.Model;
using Google.Rpc;

namespace FoamRules.Service.Http;

/// <summary>A request that only HTTP can refuse: another type of content, too large, not text.</summary>
/// <param name="status">The status of HTTP.</param>
/// <param name="reason">Why, as a word for programs.</param>
/// <param name="title">What kind of problem it is.</param>
/// <param name="detail">What was found, what is allowed.</param>
internal sealed class HttpRefusedException(int status, string reason, string title, Said detail)
    : ToldException(Statuses.Status(status == StatusCodes.Status413PayloadTooLarge ? Code.ResourceExhausted : Code.InvalidArgument, detail.ToString()), detail)
{
    public int HttpStatus => status;

    public string Reason => reason;

    public string Title => title;

    /// <inheritdoc/>
    public override ToldException In(IReadOnlyDictionary<string, string> patterns) => new HttpRefusedException(status, reason, title, Said.Name(Words.In(patterns)));
}
