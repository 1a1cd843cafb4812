using FoamRules.Model;
using Grpc.Core;

namespace FoamRules.Service;

/// <summary>A call failed, told in words that can be said in the caller's language.</summary>
public class ToldException : RpcException
{
    internal ToldException(Google.Rpc.Status status, Said words)
        : this(status.ToRpcException(), words)
    {
    }

    private ToldException(RpcException plain, Said words)
        : base(plain.Status, plain.Trailers) => Words = words;

    /// <summary>The words.</summary>
    public Said Words { get; }

    /// <summary>The same in another language; what programs read stays.</summary>
    /// <param name="patterns">The language's words by the English pattern; none: English.</param>
    public virtual ToldException In(IReadOnlyDictionary<string, string> patterns)
    {
        var status = this.GetRpcStatus()!.Clone();
        status.Message = Words.In(patterns);
        return new ToldException(status, Said.Name(status.Message));
    }
}
