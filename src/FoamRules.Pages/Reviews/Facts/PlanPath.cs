using System.Collections;
using System.Globalization;
using Google.Protobuf;
using Google.Protobuf.Reflection;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>Ways through a message by names and indexes: <c>work[0].cavity_fill.test_shots.shots[1]</c>. An id that looks like an index leads nowhere wrong.</summary>
internal static class PlanPath
{
    /// <summary>The part at a path; null where the message does not have it.</summary>
    public static IMessage? Part(IMessage message, string path)
    {
        IMessage? here = message;
        foreach (var (field, index) in path.Length == 0 ? [] : Steps(message.Descriptor, path))
        {
            here = index is { } at ? (IMessage?)((IList)field.Accessor.GetValue(here))[at] : (IMessage?)field.Accessor.GetValue(here);
            if (here is null)
            {
                return null;
            }
        }

        return here;
    }

    /// <summary>The part at a path; what is missing on the way is made.</summary>
    public static IMessage Made(IMessage message, string path)
    {
        var here = message;
        foreach (var (field, index) in Steps(message.Descriptor, path))
        {
            if (index is { } at)
            {
                here = (IMessage)((IList)field.Accessor.GetValue(here))[at]!;
                continue;
            }

            if (field.Accessor.GetValue(here) is not IMessage part)
            {
                part = Empty(field.MessageType);
                field.Accessor.SetValue(here, part);
            }

            here = part;
        }

        return here;
    }

    /// <summary>The list at a path.</summary>
    public static IList List(IMessage message, string path)
    {
        var at = path.LastIndexOf('.');
        var owner = at < 0 ? message : Made(message, path[..at]);
        return (IList)owner.Descriptor.FindFieldByName(path[(at + 1)..]).Accessor.GetValue(owner);
    }

    /// <summary>The path of what has a field; empty for the message itself.</summary>
    public static string Above(string path) => path.Contains('.', StringComparison.Ordinal) ? path[..path.LastIndexOf('.')] : "";

    /// <summary>An empty part of the kind that a path leads to.</summary>
    public static IMessage EmptyPart(MessageDescriptor type, string path) => Empty(Steps(type, path).Last().Field.MessageType);

    /// <summary>A copy.</summary>
    public static IMessage Copy(IMessage message) => message.Descriptor.Parser.ParseFrom(message.ToByteString());

    private static IMessage Empty(MessageDescriptor type) => type.Parser.ParseFrom(ByteString.Empty);

    private static IEnumerable<(FieldDescriptor Field, int? Index)> Steps(MessageDescriptor type, string path)
    {
        foreach (var step in path.Split('.'))
        {
            var bracket = step.IndexOf('[', StringComparison.Ordinal);
            var field = type.FindFieldByName(bracket < 0 ? step : step[..bracket]) ?? throw new ArgumentException($"the contract has no field {path}", nameof(path));
            yield return (field, bracket < 0 ? null : int.Parse(step[(bracket + 1)..^1], CultureInfo.InvariantCulture));
            type = field.MessageType;
        }
    }
}
