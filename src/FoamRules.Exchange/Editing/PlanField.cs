using System.Collections.Immutable;
using FoamRules.Contracts.V1;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Exchange.Editing;

/// <summary>How a field of a plan is written.</summary>
public enum PlanFieldKind
{
    /// <summary>A text.</summary>
    Text = 1,

    /// <summary>A day.</summary>
    Date = 2,

    /// <summary>A date and time with its offset.</summary>
    Instant = 3,

    /// <summary>A number without a unit.</summary>
    Number = 4,

    /// <summary>A whole number.</summary>
    Count = 5,

    /// <summary>Yes or no.</summary>
    YesNo = 6,

    /// <summary>One of several names.</summary>
    Choice = 7,

    /// <summary>A number with a unit.</summary>
    Quantity = 8,

    /// <summary>A time zone of the IANA database.</summary>
    TimeZone = 9,
}

/// <summary>A single field of a plan, as the contract describes it: a form needs to know no more than its path.</summary>
/// <param name="Path">The path, with a number for each place in a list, such as <c>work[0].cavity_fill.height</c>.</param>
/// <param name="Kind">How it is written.</param>
/// <param name="Quantity">What is measured, such as <c>Length</c>; empty where it is no quantity.</param>
/// <param name="Names">The names of which it is one, or the units in which it may be given; otherwise empty.</param>
public sealed record PlanField(string Path, PlanFieldKind Kind, string Quantity, ImmutableArray<string> Names)
{
    /// <summary>The field at a path.</summary>
    /// <param name="path">The path.</param>
    /// <exception cref="ArgumentException">The contract has no single field there.</exception>
    public static PlanField At(string path)
    {
        var type = Plan.Descriptor;
        FieldDescriptor? field = null;
        foreach (var step in path.Split('.'))
        {
            field = type?.FindFieldByName(step.Split('[')[0]) ?? throw new ArgumentException($"the contract has no field {path}", nameof(path));
            type = field.FieldType == FieldType.Message ? field.MessageType : null;
        }

        return field! switch
        {
            { FieldType: FieldType.Message } when type == Timestamp.Descriptor => new(path, PlanFieldKind.Instant, "", []),
            { FieldType: FieldType.Message } when QuantityMap.IsQuantity(type!) => new(path, PlanFieldKind.Quantity, type!.Name, [.. type.Fields.InDeclarationOrder().Select(unit => unit.Name)]),
            { FieldType: FieldType.Enum } => new(path, PlanFieldKind.Choice, "", [.. field!.EnumType.Values.Where(value => value.Number != 0).Select(value => EnumNames.Short(field.EnumType, value.Name))]),
            { FieldType: FieldType.Bool } => new(path, PlanFieldKind.YesNo, "", []),
            { FieldType: FieldType.Double } => new(path, PlanFieldKind.Number, "", []),
            { FieldType: FieldType.Int32 or FieldType.Int64 } => new(path, PlanFieldKind.Count, "", []),
            { FieldType: FieldType.String } => new(path, field!.GetOptions()?.GetExtension(ChecksExtensions.Check)?.Format switch { TextFormat.Date => PlanFieldKind.Date, TextFormat.TimeZone => PlanFieldKind.TimeZone, _ => PlanFieldKind.Text }, "", []),
            _ => throw new ArgumentException($"{path} is no single field", nameof(path)),
        };
    }
}
