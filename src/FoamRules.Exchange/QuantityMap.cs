using System.Collections.Concurrent;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>
/// Between the contract's quantity messages and UnitsNet. The contract names its units as UnitsNet does, in plural, so the
/// names are all that is needed; the few that differ stand in <see cref="Aliases"/>.
/// </summary>
internal static class QuantityMap
{
    // Contract message → UnitsNet quantity, where the names differ.
    private static readonly Dictionary<string, string> Kinds = new()
    {
        ["TemperatureDifference"] = "TemperatureDelta",
        ["AirChanges"] = "Frequency",
        ["HeatPerArea"] = "Irradiation",
        ["SoundLevel"] = "Level",
        ["SpecificHeat"] = "SpecificEntropy",
    };

    // UnitsNet has frequency in cycles per hour and no foot-candle (1 lm/ft²).
    private static readonly Dictionary<string, string> Aliases = new()
    {
        ["PerHour"] = "CyclesPerHour",
    };

    private static readonly ConcurrentDictionary<FieldDescriptor, Enum> Units = new();
    private static readonly Dictionary<string, MessageDescriptor> Messages =
        Contract.QuantitiesReflection.Descriptor.MessageTypes.ToDictionary(message => Kinds.GetValueOrDefault(message.Name, message.Name));

    /// <summary>True for the messages of quantities.proto.</summary>
    public static bool IsQuantity(MessageDescriptor message) => message.File == Contract.QuantitiesReflection.Descriptor;

    /// <summary>The quantity in a message; null where the message names no unit.</summary>
    public static IQuantity? Read(IMessage message)
    {
        var field = message.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message);
        return field is null ? null : From((double)field.Accessor.GetValue(message), field);
    }

    /// <summary>The message of a quantity, in the unit that the contract lists first; null where the contract has no such message.</summary>
    public static IMessage? Write(IQuantity quantity)
    {
        // A relative humidity is a share like any other.
        if (quantity is RelativeHumidity humidity)
        {
            return Write(Ratio.FromPercent(humidity.Percent));
        }

        if (!Messages.TryGetValue(quantity.QuantityInfo.Name, out var type))
        {
            return null;
        }

        var message = type.Parser.ParseFrom(ByteString.Empty);
        var field = type.Oneofs[0].Fields[0];
        field.Accessor.SetValue(message, quantity.As(Unit(field)));
        return message;
    }

    /// <summary>A value in a field's unit as a quantity.</summary>
    public static IQuantity From(double value, FieldDescriptor field) =>
        field.Name == "foot_candles" ? FoamRules.Model.FootCandles.From(value) : FoamRules.Model.Quantities.From(value, Unit(field));

    /// <summary>The field in whose unit the checks of a quantity are written: the first one.</summary>
    public static FieldDescriptor FirstUnit(MessageDescriptor message) => message.Oneofs[0].Fields[0];

    /// <summary>The value of a quantity in a field's unit.</summary>
    public static double In(IQuantity quantity, FieldDescriptor field) =>
        field.Name == "foot_candles" ? FoamRules.Model.FootCandles.In((Illuminance)quantity) : quantity.As(Unit(field));

    private static Enum Unit(FieldDescriptor field) => Units.GetOrAdd(field, static field =>
    {
        var kind = Kinds.GetValueOrDefault(field.ContainingType.Name, field.ContainingType.Name);
        var plural = string.Concat(field.Name.Split('_').Select(word => char.ToUpperInvariant(word[0]) + word[1..]));
        plural = Aliases.GetValueOrDefault(plural, plural);
        var info = FoamRules.Model.Quantities.InfoOf(kind);
        return info.UnitInfos.SingleOrDefault(unit => unit.PluralName.Equals(plural, StringComparison.OrdinalIgnoreCase))?.Value
            ?? throw new InvalidOperationException($"UnitsNet has no unit {plural} of {kind}");
    });
}
