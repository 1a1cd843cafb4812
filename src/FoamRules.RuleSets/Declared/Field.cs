using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using System.Reflection;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.RuleSets.Declared;

/// <summary>A field of a part of the plan: the property of a record, under the contract's name.</summary>
internal sealed class Field
{
    private static readonly ConcurrentDictionary<Type, ImmutableSortedDictionary<string, Field>> Known = new();

    private Field(PropertyInfo property, bool isOnlyField)
    {
        Property = property;
        Name = PathStep.FieldName(property.Name);
        Type = ExpressionType.Of(property.PropertyType);
        CanBeEmpty = isOnlyField && Type is ListType;
    }

    /// <summary>The property.</summary>
    public PropertyInfo Property { get; }

    /// <summary>The contract's name.</summary>
    public string Name { get; }

    /// <summary>The type of its values.</summary>
    public ExpressionType Type { get; }

    /// <summary>True for the list of a part that holds nothing else: where the part is given, an empty list says "none".</summary>
    public bool CanBeEmpty { get; }

    /// <summary>The fields of a record by name.</summary>
    public static ImmutableSortedDictionary<string, Field> Of(Type record) => Known.GetOrAdd(record, static record =>
    {
        var properties = record.GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(property => property.Name != nameof(PlanNode.Where)).ToList();
        return properties.Select(property => new Field(property, properties.Count == 1)).ToImmutableSortedDictionary(field => field.Name, field => field, StringComparer.Ordinal);
    });

    /// <summary>The field's value as a reader sees it; null where it is missing, or not a single value.</summary>
    public Measure? Show(PlanNode node) => Property.GetValue(node) switch
    {
        IQuantity quantity => Measure.Of(quantity),
        int count => Measure.OfCount(count),
        double factor => Measure.OfFactor(factor),
        DateOnly date => Measure.OfDate(date),
        DateTimeOffset instant => Measure.OfInstant(instant),
        string { Length: > 0 } text => Measure.OfText(text),
        Enum value when Convert.ToInt32(value, CultureInfo.InvariantCulture) != 0 => Measure.OfText(EnumWords.Short(value.ToString())),
        _ => null,
    };
}
