using System.Collections;
using System.Globalization;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Exchange.Editing;

/// <summary>The contract's values as they stand in a plan, in YAML on one line.</summary>
internal static class FlowText
{
    /// <summary>In YAML on one line: <c>{ inches: 2 }</c>, <c>closed-cell-pour</c>.</summary>
    public static string Write(object value, FieldDescriptor field) => value switch
    {
        IList list => list.Count == 0 ? "[]" : $"[{string.Join(", ", list.Cast<object>().Select(entry => Write(entry, field)))}]",
        Timestamp at => at.ToDateTimeOffset().ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        IMessage message => Given(message, (inner, each) => $"{each.Name}: {Write(inner, each)}") is { Length: > 0 } fields ? $"{{ {fields} }}" : "{}",
        bool yes => yes ? "true" : "false",
        double number => number.ToString("R", CultureInfo.InvariantCulture),
        string text => $"\"{text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)}\"",
        System.Enum or int when field.FieldType == FieldType.Enum => Name(value, field),
        _ => System.Convert.ToString(value, CultureInfo.InvariantCulture)!,
    };

    /// <summary>The word of an enum's value, as a person writes it in a plan.</summary>
    public static string Name(object value, FieldDescriptor field)
    {
        var known = field.EnumType.FindValueByNumber(System.Convert.ToInt32(value, CultureInfo.InvariantCulture));
        return EnumNames.Short(field.EnumType, known.Name);
    }

    /// <summary>The fields of a part that are given, each as the function shows it.</summary>
    public static string Given(IMessage message, Func<object, FieldDescriptor, string> show)
    {
        var parts = new List<string>();
        foreach (var field in message.Descriptor.Fields.InDeclarationOrder())
        {
            var value = field.Accessor.GetValue(message);
            var isGiven = value switch
            {
                null => false,
                IList list => list.Count > 0,
                _ when field.HasPresence => field.Accessor.HasValue(message),
                string text => text.Length > 0,
                System.Enum number => System.Convert.ToInt32(number, CultureInfo.InvariantCulture) != 0,
                _ => true,
            };
            if (isGiven)
            {
                parts.Add(show(value!, field));
            }
        }

        return string.Join(", ", parts);
    }
}
