using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Service.Http;

/// <summary>A request as it came over HTTP: the message, and the text of its body for the lines of what is wrong.</summary>
/// <param name="Message">The request.</param>
/// <param name="Body">The body as a tree; null where there was none.</param>
internal sealed record HttpInput(IMessage Message, DataNode? Body)
{
    private const string BodyIsPlan = "plan";

    /// <summary>
    /// Reads the body, what stands in the path and what stands behind the question mark into one request, by the reader that reads plans
    /// from files: an unknown name is never dropped, and everything that is wrong is named at once.
    /// </summary>
    /// <param name="request">The request.</param>
    /// <param name="route">Its route.</param>
    /// <param name="type">The request's type.</param>
    /// <param name="body">The body as it was read.</param>
    /// <exception cref="UnusableException">It cannot be read.</exception>
    public static HttpInput Read(HttpRequest request, HttpRoute route, MessageDescriptor type, HttpBody? body)
    {
        var message = Empty(type);
        var wrong = new List<Violation>();
        DataNode? tree = null;
        if (body is not null)
        {
            var data = body.IsYaml ? DataText.ReadYaml(body.Text) : DataText.ReadJson(body.Text);
            tree = data.Root;
            wrong.AddRange(data.Violations);
            if (tree is not null)
            {
                wrong.AddRange(route.WholeRequest ? FromBody(tree, message) : FieldFromBody(tree, message, type.FindFieldByName(route.Body)));
            }
        }

        wrong.AddRange(FromQuery(request.Query, message, type, route));
        wrong.AddRange(FromPath(request.RouteValues, message, type, route));
        return wrong.Count == 0 ? new HttpInput(message, tree) : throw (route.Body == BodyIsPlan ? Statuses.Unreadable(wrong) : Statuses.Impossible(wrong));
    }

    /// <summary>Reads one line of many into a request.</summary>
    /// <param name="line">The line, JSON.</param>
    /// <param name="type">The request's type.</param>
    /// <exception cref="UnusableException">It cannot be read.</exception>
    public static IMessage ReadLine(string line, MessageDescriptor type)
    {
        var message = Empty(type);
        var data = DataText.ReadJson(line);
        var wrong = data.Root is null ? data.Violations : MessageReader.Read(data.Root, message, null);
        return wrong.Count == 0 ? message : throw Statuses.Unreadable(wrong);
    }

    /// <summary>A request with nothing in it.</summary>
    public static IMessage Empty(MessageDescriptor type) => type.Parser.ParseFrom(ByteString.Empty);

    /// <summary>What a method found wrong, with the lines of the body.</summary>
    public UnusableException WithLines(UnusableException error) =>
        Body is null || Message is not Contract.CheckPlanRequest ? error : Statuses.Unreadable([
            .. error.Violations.Where(IsOfRequest), .. LineFinder.Of(Body, [.. error.Violations.Where(violation => !IsOfRequest(violation))])]);

    // The body is the plan; the other fields of the request stand behind the question mark.
    private bool IsOfRequest(Violation violation) => Message.Descriptor.FindFieldByName(violation.Path) is not null;

    private static IReadOnlyList<Violation> FromBody(DataNode tree, IMessage message)
    {
        var unreadable = MessageReader.Read(tree, message, null);
        return unreadable.Count == 0 ? unreadable : LineFinder.Of(tree, unreadable, RequestCheck.Of(message));
    }

    private static IReadOnlyList<Violation> FieldFromBody(DataNode tree, IMessage message, FieldDescriptor field)
    {
        var value = Empty(field.MessageType);
        var unreadable = MessageReader.Read(tree, value, null);
        field.Accessor.SetValue(message, value);
        return unreadable.Count > 0 && value is Contract.Plan plan ? LineFinder.Of(tree, unreadable, PlanReader.ReadMessage(plan, new ReadOptions(default)).Violations) : unreadable;
    }

    private static IReadOnlyList<Violation> FromQuery(IQueryCollection query, IMessage message, MessageDescriptor type, HttpRoute route)
    {
        if (route.WholeRequest)
        {
            return [.. query.Keys.Select(name => new Violation(name, "a value behind the question mark", "the fields of the body", "write it into the body"))];
        }

        var entries = query.Select(pair => new MapEntry(pair.Key, IsList(type, pair.Key)
            ? new ListNode([.. pair.Value.Select(Scalar)], 0, 0)
            : pair.Value.Count == 1 ? Scalar(pair.Value[0]) : new ListNode([], 0, 0), 0, 0));
        var taken = route.PathFields.Append(route.Body).ToHashSet(StringComparer.Ordinal);
        var twice = query.Keys.Where(name => type.FindFieldByName(name) is { } field && taken.Contains(field.Name))
            .Select(name => new Violation(name, "a value behind the question mark", "this field once", "it stands in the path or is the body")).ToList();
        return twice.Count > 0 ? twice : MessageReader.Read(new MapNode([.. entries], 0, 0), message, null);
    }

    private static IReadOnlyList<Violation> FromPath(RouteValueDictionary values, IMessage message, MessageDescriptor type, HttpRoute route)
    {
        foreach (var field in route.PathFields.Select(name => type.FindFieldByName(name)))
        {
            var inPath = (string)values[field.Name]!;
            if (field.Accessor.GetValue(message) is string { Length: > 0 } inBody && inBody != inPath)
            {
                return [new Violation(field.Name, $"`{inBody}`", $"`{inPath}`, as in the path", "leave it out of the body")];
            }

            field.Accessor.SetValue(message, inPath);
        }

        return [];
    }

    private static bool IsList(MessageDescriptor type, string name) =>
        (type.FindFieldByName(name) ?? type.Fields.InDeclarationOrder().FirstOrDefault(field => field.JsonName == name)) is { IsRepeated: true };

    private static ScalarNode Scalar(string? text) => new(text, false, 0, 0);
}
