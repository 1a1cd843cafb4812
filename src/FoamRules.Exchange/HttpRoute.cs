using Google.Api;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange;

/// <summary>How a method is called over HTTP, as the contract says it by google.api.http.</summary>
/// <param name="Verb">The method of HTTP, such as POST.</param>
/// <param name="Template">The path, with names of the request's fields in braces.</param>
/// <param name="Body">The field that the body is; <c>*</c> for the whole request, empty for no body.</param>
public sealed record HttpRoute(string Verb, string Template, string Body)
{
    /// <summary>True where the body is the whole request.</summary>
    public bool WholeRequest => Body == "*";

    /// <summary>The route of a method; null where the contract gives it none.</summary>
    public static HttpRoute? Of(MethodDescriptor method) => method.GetOptions()?.GetExtension(AnnotationsExtensions.Http) is not { } rule ? null : rule.PatternCase switch
    {
        HttpRule.PatternOneofCase.Get => new HttpRoute("GET", rule.Get, ""),
        HttpRule.PatternOneofCase.Post => new HttpRoute("POST", rule.Post, rule.Body),
        _ => throw new NotSupportedException($"{method.FullName} has a route by {rule.PatternCase}; the service knows get and post"),
    };

    /// <summary>The fields that stand in the path.</summary>
    public IEnumerable<string> PathFields => Template.Split('{').Skip(1).Select(part => part[..part.IndexOf('}', StringComparison.Ordinal)]);
}
