using System.Collections;
using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Exchange.Editing;

/// <summary>The contract's values as people read them; the fields of a part stand with their names.</summary>
/// <param name="units">The unit system.</param>
/// <param name="style">How the language writes numbers.</param>
/// <param name="word">A word in the language.</param>
internal sealed class PlainText(DisplayUnits units, NumberStyle style, Func<string, string> word)
{
    public string Show(object value, FieldDescriptor field) => value switch
    {
        Timestamp at => at.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm zzz", CultureInfo.InvariantCulture),
        // Parts with fields of their own are told apart by a semicolon.
        IList list => list.Count == 0 ? word("none") : string.Join(list[0] is IMessage ? "; " : ", ", list.Cast<object>().Select(entry => Show(entry, field))),
        IMessage message when !QuantityMap.IsQuantity(message.Descriptor) => FlowText.Given(message, (inner, each) => $"{word(each.Name.Replace('_', ' '))} {Show(inner, each)}"),
        IMessage quantity => QuantityMap.Read(quantity) is { } read ? MeasureText.Show(read, units, style) : "",
        System.Enum or int when field.FieldType == FieldType.Enum => word(FlowText.Name(value, field).Replace('-', ' ')),
        bool yes => word(yes ? "yes" : "no"),
        _ => MessageText.Show(value, field, units) ?? "",
    };
}
