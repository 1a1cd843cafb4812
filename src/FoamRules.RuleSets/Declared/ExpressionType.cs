using System.Collections.Immutable;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.RuleSets.Declared;

/// <summary>The type of a part of an expression.</summary>
/// <param name="Clr">The type of its values in compiled code.</param>
/// <param name="Shown">What people call it.</param>
internal abstract record ExpressionType(Type Clr, string Shown)
{
    public static readonly ExpressionType Bool = new PlainType(typeof(bool), "yes or no");
    public static readonly ExpressionType Int = new PlainType(typeof(long), "a whole number");
    public static readonly ExpressionType Double = new PlainType(typeof(double), "a number");
    public static readonly ExpressionType Text = new PlainType(typeof(string), "a text");
    public static readonly ExpressionType Timestamp = new PlainType(typeof(DateTimeOffset), "an instant");
    public static readonly ExpressionType Date = new PlainType(typeof(DateOnly), "a date");
    public static readonly ExpressionType Duration = new QuantityType(nameof(UnitsNet.Duration));

    /// <summary>The type of values of a property, or of the entries of a list.</summary>
    public static ExpressionType Of(Type type)
    {
        type = Nullable.GetUnderlyingType(type) ?? type;
        if (type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>))
        {
            return new ListType(Of(type.GetGenericArguments()[0]));
        }

        return type switch
        {
            _ when type == typeof(bool) => Bool,
            _ when type == typeof(int) => Int,
            _ when type == typeof(double) => Double,
            _ when type == typeof(string) => Text,
            _ when type == typeof(DateTimeOffset) => Timestamp,
            _ when type == typeof(DateOnly) => Date,
            _ when type.IsEnum => new EnumType(type),
            _ when typeof(IQuantity).IsAssignableFrom(type) => new QuantityType(type.Name),
            _ when typeof(PlanNode).IsAssignableFrom(type) => new RecordType(type),
            _ => throw new InvalidOperationException($"expressions know no {type.Name}"),
        };
    }

    /// <summary>The type of a limit of a rule set.</summary>
    public static ExpressionType Of(Limit limit) => limit switch
    {
        { Words.IsEmpty: false } => new ListType(Text),
        { Value.Count: not null } => Int,
        { Value.Date: not null } => Date,
        { Value.Quantity: Scalar } => Double,
        { Value.Quantity: { } quantity } => new QuantityType(quantity.QuantityInfo.Name),
        _ => Text,
    };

    public sealed override string ToString() => Shown;

    protected static string Words(string name) => PathStep.FieldName(name).Replace('_', ' ');

    protected static string Article(string noun) => ("aeiou".Contains(noun[0], StringComparison.Ordinal) ? "an " : "a ") + noun;

    private sealed record PlainType(Type Clr, string Shown) : ExpressionType(Clr, Shown);
}

/// <summary>A physical quantity; its values are doubles in UnitsNet's base unit.</summary>
internal sealed record QuantityType(string Kind) : ExpressionType(typeof(double), Article(Words(Kind switch
{
    "TemperatureDelta" => "TemperatureDifference",
    "Frequency" => "RateOfAirChanges",
    "Irradiation" => "HeatPerArea",
    "Level" => "SoundLevel",
    _ => Kind,
})));

/// <summary>One of the contract's enums; its values are the numbers.</summary>
internal sealed record EnumType(Type Enum) : ExpressionType(typeof(int), $"one of {string.Join(", ", EnumWords.Of(Enum))}");

/// <summary>A part of the plan.</summary>
internal sealed record RecordType(Type Record) : ExpressionType(Record, $"the part {Words(Record.Name)} of a plan");

/// <summary>A list.</summary>
internal sealed record ListType(ExpressionType Item) : ExpressionType(Item.Clr.MakeArrayType(), $"a list, each entry {Item.Shown}");
