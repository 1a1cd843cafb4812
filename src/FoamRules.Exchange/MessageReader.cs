using System.Collections;
using System.Globalization;
using System.Numerics;
using FoamRules.Model;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Exchange;

/// <summary>
/// Reads a tree of names and values into a message by the proto JSON mapping, for YAML and JSON alike. The library's own
/// JSON parser stops at the first error and cannot say where it stands; this one finds them all.
/// </summary>
public sealed class MessageReader
{
    private readonly string? _file;
    private readonly List<Violation> _violations = [];
    private readonly List<(FieldDescriptor Field, string Path)> _here = [];
    private readonly MessageDescriptor _root;

    // Beyond it nobody reads what was meant, and looking for it takes time.
    private const int MostSuggestions = 100;

    private MessageReader(MessageDescriptor root, string? file) => (_root, _file) = (root, file);

    /// <summary>Reads a tree into a message.</summary>
    /// <param name="root">The tree.</param>
    /// <param name="message">The message that is filled.</param>
    /// <param name="file">The file's name, for messages.</param>
    /// <returns>Everything that cannot be read; empty when the message is whole.</returns>
    public static IReadOnlyList<Violation> Read(DataNode root, IMessage message, string? file)
    {
        var reader = new MessageReader(message.Descriptor, file);
        reader.Fill(root, message, "");
        return reader._violations;
    }

    private void Fill(DataNode node, IMessage message, string path)
    {
        if (node is not MapNode && QuantityMap.IsQuantity(message.Descriptor))
        {
            var units = string.Join(", ", message.Descriptor.Fields.InDeclarationOrder().Select(field => field.Name));
            Wrong(node, path, Describe(node), $"a number under the name of its unit: {units}", "write the unit below it, as `unit: number`");
            return;
        }

        if (node is not MapNode map)
        {
            Wrong(node, path, Describe(node), "a mapping of field names to values", "write the fields below it, each as `name: value`");
            return;
        }

        foreach (var entry in map.Entries)
        {
            var here = path.Length == 0 ? entry.Name : $"{path}.{entry.Name}";
            var field = message.Descriptor.FindFieldByName(entry.Name)
                ?? message.Descriptor.Fields.InDeclarationOrder().FirstOrDefault(candidate => candidate.JsonName == entry.Name);
            if (field is null)
            {
                _violations.Add(new Violation(here, "an unknown field", $"the fields of {message.Descriptor.Name}", Suggest(entry.Name, message.Descriptor), entry.Line, entry.Column, _file));
                continue;
            }

            here = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
            if (entry.Value is ScalarNode { Text: null })
            {
                continue;
            }

            if (field.RealContainingOneof is { } oneof && oneof.Accessor.GetCaseFieldDescriptor(message) is { } other)
            {
                Wrong(entry.Value, here, $"a second value beside {other.Name}", $"one of {string.Join(", ", oneof.Fields.Select(f => f.Name))}", "keep one of them");
                continue;
            }

            if (field.IsRepeated)
            {
                FillList(entry.Value, message, field, here);
            }
            else if (Value(entry.Value, field, here) is { } value)
            {
                field.Accessor.SetValue(message, value);
            }
        }
    }

    private void FillList(DataNode node, IMessage message, FieldDescriptor field, string path)
    {
        if (node is not ListNode list)
        {
            Wrong(node, path, Describe(node), "a list", "begin each entry with `- `");
            return;
        }

        var target = (IList)field.Accessor.GetValue(message);
        for (var i = 0; i < list.Items.Count; i++)
        {
            if (Value(list.Items[i], field, $"{path}[{i}]") is { } value)
            {
                target.Add(value);
            }
        }
    }

    private object? Value(DataNode node, FieldDescriptor field, string path)
    {
        if (field.FieldType == FieldType.Message)
        {
            if (field.MessageType.FullName == Timestamp.Descriptor.FullName)
            {
                return Instant(node, path);
            }

            var message = field.MessageType.Parser.ParseFrom(Google.Protobuf.ByteString.Empty);
            _here.Add((field, path));
            Fill(node, message, path);
            _here.RemoveAt(_here.Count - 1);
            return message;
        }

        if (node is not ScalarNode { Text: { } text } scalar)
        {
            return Wrong(node, path, Describe(node), "a single value", "write one value here");
        }

        switch (field.FieldType)
        {
            case FieldType.String:
                return text;
            case FieldType.Bool:
                return text switch
                {
                    "true" or "True" => true,
                    "false" or "False" => false,
                    _ => Wrong(node, path, $"`{Short(text)}`", "true or false", "write true, false, or leave the field out where it is not known"),
                };
            case FieldType.Enum:
                if (EnumNames.TryParse(field.EnumType, text, out var number))
                {
                    return number;
                }

                // A number that the contract does not know is refused when the message is read, like one that came over the wire.
                return int.TryParse(text, CultureInfo.InvariantCulture, out number)
                    ? number
                    : Wrong(node, path, $"`{Short(text)}`", EnumNames.Allowed(field.EnumType), "use one of these names");
            case FieldType.Double:
                return Number<double>(scalar, path, "a number");
            case FieldType.Int32:
                return Number<int>(scalar, path, "a whole number");
            case FieldType.Int64:
                return Number<long>(scalar, path, "a whole number");
            default:
                throw new NotSupportedException($"the contract has a field of type {field.FieldType} that the reader does not know");
        }
    }

    private object? Number<T>(ScalarNode node, string path, Said allowed)
        where T : struct, INumber<T>
    {
        if (T.TryParse(node.Text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number))
        {
            return number;
        }

        return Wrong(node, path, $"`{Short(node.Text!)}`", allowed, "write the number alone, with a point for decimals; the unit is the name before it");
    }

    private object? Instant(DataNode node, string path)
    {
        if (node is ScalarNode { Text: { } text }
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var at)
            && HasOffset(text))
        {
            return Timestamp.FromDateTimeOffset(at);
        }

        return Wrong(node, path, Describe(node), "a date and time with its offset from UTC", "write it like 2026-04-14T07:40:00-05:00");
    }

    // Without an offset the time would be read in the zone of the machine that happens to read it.
    private static bool HasOffset(string text)
    {
        var time = text.IndexOfAny(['T', 't', ' ']);
        return time > 0 && text.AsSpan(time).IndexOfAny("Zz+-") > 0;
    }

    private object? Wrong(DataNode node, string path, Said found, Said allowed, Said remedy)
    {
        _violations.Add(new Violation(path, found, allowed, remedy, node.Line, node.Column, _file));
        return null;
    }

    private static Said Describe(DataNode node) => node switch
    {
        MapNode => "a mapping",
        ListNode => "a list",
        ScalarNode { Text: { } text } => (Said)$"`{Short(text)}`",
        _ => "nothing",
    };

    private static string Short(string text) => text.Length <= 40 ? text : text[..40] + "…";

    // A slip of one letter is meant for this place; else the very name may belong elsewhere; else it is misspelt, here or elsewhere.
    private Said Suggest(string name, MessageDescriptor type)
    {
        var nearest = type.Fields.InDeclarationOrder().Select(field => field.Name).MinBy(candidate => Closeness.Distance(candidate, name));
        var distance = nearest is null ? int.MaxValue : Closeness.Distance(nearest, name);
        var elsewhere = distance > 1 && _violations.Count < MostSuggestions ? FieldWays.From(_root) : null;
        if (elsewhere?.Nearest(name, _here) is { Count: > 0 } same)
        {
            return $"did you mean {string.Join(", ", same)}?";
        }

        return distance <= Math.Max(2, name.Length / 3) ? (Said)$"did you mean {nearest}?"
            : elsewhere?.Closest(name) is { } close ? (Said)$"did you mean {string.Join(", ", elsewhere.Nearest(close, _here))}?"
            : $"use one of {string.Join(", ", type.Fields.InDeclarationOrder().Select(field => field.Name).Take(12))}";
    }
}
