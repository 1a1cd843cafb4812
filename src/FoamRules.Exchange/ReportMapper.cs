using System.Collections;
using System.Collections.Frozen;
using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using UnitsNet;
using UnitsNet.Units;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>Between the engine's report and the contract's message, both ways. Fields and properties bear the same names.</summary>
public static class ReportMapper
{
    private static readonly FrozenDictionary<MessageDescriptor, FieldDescriptor> QuantityFields = Contract.Measure.Descriptor.Oneofs[0].Fields
        .Where(field => field.FieldType == FieldType.Message).ToFrozenDictionary(field => field.MessageType);

    /// <summary>The message of a report; quantities in SI units.</summary>
    public static Contract.Report ToMessage(Report report) => (Contract.Report)Message(report, Contract.Report.Descriptor);

    /// <summary>The report in a message, such as one that a server sent.</summary>
    public static Report ToReport(Contract.Report message) => (Report)Record(message, typeof(Report));

    /// <summary>The finding in a message.</summary>
    public static Finding FindingOf(Contract.Finding message) => (Finding)Record(message, typeof(Finding));

    /// <summary>The message of a worked step.</summary>
    public static Contract.WorkedStep StepMessage(WorkedStep step) => (Contract.WorkedStep)Message(step, Contract.WorkedStep.Descriptor);

    /// <summary>The worked step in a message.</summary>
    public static WorkedStep StepOf(Contract.WorkedStep message) => (WorkedStep)Record(message, typeof(WorkedStep));

    /// <summary>The message of any other record whose properties bear the names of the message's fields.</summary>
    /// <typeparam name="TMessage">The message's type.</typeparam>
    public static TMessage MessageOf<TMessage>(object record)
        where TMessage : IMessage, new() => (TMessage)Message(record, new TMessage().Descriptor);

    private static IMessage Message(object record, MessageDescriptor type)
    {
        var message = type.Parser.ParseFrom(ByteString.Empty);
        foreach (var member in RecordShape.Of(type, record.GetType()).Members)
        {
            var value = member.Get(record);
            if (member.Field.IsRepeated)
            {
                var target = (IList)member.Field.Accessor.GetValue(message);
                foreach (var entry in (IEnumerable)value!)
                {
                    target.Add(Value(entry, member.Field));
                }
            }
            else if (value is not null)
            {
                member.Field.Accessor.SetValue(message, Value(value, member.Field));
            }
        }

        return message;
    }

    private static object Value(object value, FieldDescriptor field) => value switch
    {
        Measure measure => MeasureMessage(measure),
        DateTimeOffset at => Timestamp.FromDateTimeOffset(at),
        System.Enum name => System.Convert.ToInt32(name, CultureInfo.InvariantCulture),
        string or int or bool => value,
        _ => Message(value, field.MessageType),
    };

    private static object Record(IMessage message, System.Type type)
    {
        var shape = RecordShape.Of(message.Descriptor, type);
        var values = shape.Members.ToDictionary(member => member.Property.Name, member => Value(message, member));
        if (shape.Constructor is { } constructor)
        {
            return constructor.Invoke([.. constructor.GetParameters().Select(parameter => values[parameter.Name!])]);
        }

        var record = Activator.CreateInstance(type)!;
        foreach (var member in shape.Members)
        {
            member.Set(record, values[member.Property.Name]);
        }

        return record;
    }

    private static object? Value(IMessage message, RecordShape.Member member)
    {
        var value = member.Field.Accessor.GetValue(message);
        if (!member.Field.IsRepeated)
        {
            return Back(value, member);
        }

        var source = (IList)value;
        var builder = ListBuilder.For(member.Type, source.Count);
        foreach (var entry in source)
        {
            builder.Add(Back(entry!, member)!);
        }

        return builder.ToImmutableArray();
    }

    private static object? Back(object? value, RecordShape.Member member) => value switch
    {
        null => null,
        Contract.Measure measure => MeasureOf(measure),
        Timestamp at => at.ToDateTimeOffset(),
        IMessage message => Record(message, member.Type),
        System.Enum name => System.Convert.ToInt32(name, CultureInfo.InvariantCulture) is var number && number == 0 ? null : System.Enum.ToObject(member.Type, number),
        _ => value,
    };

    /// <summary>The message of one value.</summary>
    public static Contract.Measure MeasureMessage(Measure measure)
    {
        var message = new Contract.Measure();
        switch (measure)
        {
            case { Quantity: Scalar factor }:
                message.Factor = factor.Amount;
                break;
            case { Quantity: RelativeHumidity humidity }:
                message.Ratio = new Contract.Ratio { Percent = humidity.Percent };
                break;
            case { Quantity: { } quantity } when QuantityMap.Write(quantity) is { } written:
                QuantityFields[written.Descriptor].Accessor.SetValue(message, written);
                break;
            case { Quantity: { } quantity }:
                // The library knows the SI unit of only some quantities; its base units are SI units.
                var inBase = quantity.ToUnit(quantity.QuantityInfo.BaseUnitInfo.Value);
                message.Other = new Contract.OtherQuantity { Value = (double)inBase.Value, Unit = inBase.ToString("a", CultureInfo.InvariantCulture) };
                break;
            case { Count: { } count }:
                message.Count = count;
                break;
            case { Date: { } date }:
                message.Date = date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
                break;
            case { Instant: { } at }:
                message.Instant = Timestamp.FromDateTimeOffset(at);
                break;
            default:
                message.Text = measure.Text ?? "";
                break;
        }

        return message;
    }

    /// <summary>The value in a message.</summary>
    public static Measure MeasureOf(Contract.Measure message)
    {
        switch (message.ValueCase)
        {
            case Contract.Measure.ValueOneofCase.Factor:
                return Measure.Of(new Scalar(message.Factor, ScalarUnit.Amount));
            case Contract.Measure.ValueOneofCase.Count:
                return Measure.OfCount(message.Count);
            case Contract.Measure.ValueOneofCase.Date:
                return Measure.OfDate(DateOnly.ParseExact(message.Date, "yyyy-MM-dd", CultureInfo.InvariantCulture));
            case Contract.Measure.ValueOneofCase.Instant:
                return Measure.OfInstant(message.Instant.ToDateTimeOffset());
            case Contract.Measure.ValueOneofCase.Other:
                return Measure.OfText(string.Create(CultureInfo.InvariantCulture, $"{message.Other.Value} {message.Other.Unit}"));
            case Contract.Measure.ValueOneofCase.Text or Contract.Measure.ValueOneofCase.None:
                return Measure.OfText(message.Text);
            default:
                var field = Contract.Measure.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message);
                return Measure.Of(QuantityMap.Read((IMessage)field.Accessor.GetValue(message))!);
        }
    }
}
