using System.Collections;
using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange.Editing;

/// <summary>One field of a plan's message, found by its path: what it says, what it may say, and how it is changed.</summary>
public sealed class PlanSpot
{
    private readonly IReadOnlyList<(IMessage Message, FieldDescriptor Field, string Path)> _way;

    private PlanSpot(string path, IReadOnlyList<(IMessage, FieldDescriptor, string)> way)
    {
        Path = path;
        _way = way;
    }

    /// <summary>The field's path, such as <c>work[posts].cavity_fill.vent_holes</c>.</summary>
    public string Path { get; }

    /// <summary>The field.</summary>
    public FieldDescriptor Field => _way[^1].Field;

    /// <summary>The message that has the field.</summary>
    public IMessage Owner => _way[^1].Message;

    /// <summary>The owner's path; empty for the plan itself.</summary>
    public string OwnerPath => Path.Contains('.', StringComparison.Ordinal) ? Path[..Path.LastIndexOf('.')] : "";

    /// <summary>True where whoever plans may choose the field: the nearest mark on the way to it says so.</summary>
    public bool IsChoice => _way.Reverse().Select(step => FieldChecker.CheckOf(step.Field)).FirstOrDefault(mark => mark.HasChoice)?.Choice ?? false;

    /// <summary>The contract's value; null where none is given.</summary>
    public object? Value => IsGiven(Owner, Field) ? Field.Accessor.GetValue(Owner) : null;

    /// <summary>The value as a quantity; null where it is none.</summary>
    public IQuantity? Quantity => Value is IMessage message && QuantityMap.IsQuantity(message.Descriptor) ? QuantityMap.Read(message) : null;

    /// <summary>The name of the unit in which the plan gives the quantity, such as <c>inches</c>; null where it is none.</summary>
    public string? UnitName => Unit?.Name;

    /// <summary>The value in the plan's own unit; null where it is no quantity.</summary>
    public double? Number => Unit is { } unit ? (double)unit.Accessor.GetValue((IMessage)Value!) : null;

    private string TimeZone => ((Contract.Plan)_way[0].Message).TimeZone;

    private FieldDescriptor? Unit => Value is IMessage message && QuantityMap.IsQuantity(message.Descriptor) ? message.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message) : null;

    /// <summary>Finds a field.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="path">The path; an entry of a list by its id or its index from 0.</param>
    /// <returns>Null where the path leads nowhere, or to an entry of a list.</returns>
    public static PlanSpot? Find(Contract.Plan plan, string path)
    {
        IMessage message = plan;
        var way = new List<(IMessage, FieldDescriptor, string)>();
        var steps = path.Split('.');
        for (var i = 0; i < steps.Length; i++)
        {
            var bracket = steps[i].IndexOf('[', StringComparison.Ordinal);
            var field = message.Descriptor.FindFieldByName(bracket < 0 ? steps[i] : steps[i][..bracket]);
            if (field is null)
            {
                return null;
            }

            way.Add((message, field, string.Join('.', steps.Take(i))));
            if (i == steps.Length - 1)
            {
                return bracket < 0 ? new PlanSpot(path, way) : null;
            }

            if (field.FieldType != FieldType.Message || bracket >= 0 != field.IsRepeated)
            {
                return null;
            }

            if (bracket >= 0)
            {
                if (EntryOf((IList)field.Accessor.GetValue(message), steps[i][(bracket + 1)..^1]) is not { } entry)
                {
                    return null;
                }

                message = entry;
                continue;
            }

            if (field.Accessor.GetValue(message) is not IMessage inner)
            {
                // A part that the plan does not have yet: it comes into the plan with the first value that is set.
                inner = field.MessageType.Parser.ParseFrom(ByteString.Empty);
            }

            message = inner;
        }

        return null;
    }

    /// <summary>Sets the value, and the parts on the way to it that the plan does not have yet.</summary>
    /// <param name="value">The contract's value; null takes the field out.</param>
    public void Set(object? value)
    {
        if (value is null)
        {
            Field.Accessor.Clear(Owner);
            return;
        }

        if (Field.IsRepeated)
        {
            var list = (IList)Field.Accessor.GetValue(Owner);
            var entries = ((IEnumerable)value).Cast<object>().ToList();
            list.Clear();
            entries.ForEach(entry => list.Add(entry));
        }
        else
        {
            Field.Accessor.SetValue(Owner, value);
        }

        for (var i = _way.Count - 2; i >= 0; i--)
        {
            if (!_way[i].Field.IsRepeated)
            {
                _way[i].Field.Accessor.SetValue(_way[i].Message, _way[i + 1].Message);
            }
        }
    }

    /// <summary>The word of one of an enum's numbers, as a person writes it in a plan, such as <c>gypsum-board</c>.</summary>
    /// <param name="number">The number.</param>
    public string WordOf(int number) => EnumNames.Short(Field.EnumType, Field.EnumType.FindValueByNumber(number).Name);

    /// <summary>A quantity in the unit in which the plan gives this field.</summary>
    /// <param name="number">The number in that unit.</param>
    public IMessage InPlanUnit(double number)
    {
        var message = ((IMessage)Value!).Descriptor.Parser.ParseFrom(ByteString.Empty);
        Unit!.Accessor.SetValue(message, number);
        return message;
    }

    /// <summary>The number of a quantity in the unit in which the plan gives this field; null where it is of another kind.</summary>
    public double? NumberOf(IQuantity quantity) => Quantity?.QuantityInfo.Name == quantity.QuantityInfo.Name ? QuantityMap.In(quantity, Unit!) : null;

    /// <summary>
    /// The paths of fields that tell something of this choice as it was, and are asked for again where it changes. A no stays: that
    /// something was not so before makes it no better.
    /// </summary>
    public IEnumerable<string> FallsWithIt() =>
        from step in _way
        from part in Parts(step.Message, step.Path)
        from field in part.Message.Descriptor.Fields.InDeclarationOrder()
        where FieldChecker.CheckOf(field).FallsWith.Contains(step.Field.Name) && IsGiven(part.Message, field) && field.Accessor.GetValue(part.Message) is not false
        select part.Path.Length == 0 ? field.Name : $"{part.Path}.{field.Name}";

    /// <summary>A value as it stands in a plan, in YAML on one line.</summary>
    public string Write(object? value) => value switch
    {
        null => "null",
        Timestamp at => OnSite(at).ToString("yyyy-MM-dd'T'HH:mm:sszzz", CultureInfo.InvariantCulture),
        _ => FlowText.Write(value, Field),
    };

    /// <summary>A value as people read it.</summary>
    /// <param name="value">The contract's value.</param>
    /// <param name="units">The unit system.</param>
    /// <param name="style">How the language writes numbers; null: as English does.</param>
    /// <param name="word">A word in the language; null: in English.</param>
    public string Show(object? value, DisplayUnits units, NumberStyle? style = null, Func<string, string>? word = null) => value switch
    {
        null => "",
        Timestamp at => OnSite(at).ToString("ddd d MMM yyyy HH:mm", CultureInfo.InvariantCulture) + (TimeZone.Length == 0 ? " UTC" : ""),
        _ => new PlainText(units, style ?? NumberStyle.English, word ?? (english => english)).Show(value, Field),
    };

    /// <summary>The measure of a value; null where it is not a single one.</summary>
    public static Measure? MeasureOf(object? value) => value switch
    {
        IMessage message when QuantityMap.IsQuantity(message.Descriptor) => QuantityMap.Read(message) is { } quantity ? Measure.Of(quantity) : null,
        Timestamp at => Measure.OfInstant(at.ToDateTimeOffset()),
        int count => Measure.OfCount(count),
        _ => null,
    };

    private DateTimeOffset OnSite(Timestamp at) =>
        TimeZone.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(TimeZone, out var zone) ? TimeZoneInfo.ConvertTime(at.ToDateTimeOffset(), zone) : at.ToDateTimeOffset();

    private static IEnumerable<(IMessage Message, string Path)> Parts(IMessage message, string path)
    {
        yield return (message, path);
        foreach (var field in message.Descriptor.Fields.InDeclarationOrder().Where(field => field is { FieldType: FieldType.Message, IsRepeated: false }))
        {
            if (field.Accessor.GetValue(message) is IMessage inner && !QuantityMap.IsQuantity(inner.Descriptor))
            {
                yield return (inner, path.Length == 0 ? field.Name : $"{path}.{field.Name}");
            }
        }
    }

    private static bool IsGiven(IMessage message, FieldDescriptor field) => field.IsRepeated
        ? ((IList)field.Accessor.GetValue(message)).Count > 0
        : field.HasPresence ? field.Accessor.HasValue(message)
        : field.Accessor.GetValue(message) switch
        {
            string text => text.Length > 0,
            System.Enum number => System.Convert.ToInt32(number, CultureInfo.InvariantCulture) != 0,
            _ => true,
        };

    private static IMessage? EntryOf(IList list, string key)
    {
        foreach (IMessage entry in list)
        {
            if (entry.Descriptor.FindFieldByName("id") is { } id && (string)id.Accessor.GetValue(entry) == key)
            {
                return entry;
            }
        }

        return int.TryParse(key, CultureInfo.InvariantCulture, out var index) && index < list.Count ? (IMessage?)list[index] : null;
    }
}
