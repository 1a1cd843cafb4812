using System.Collections;
using FoamRules.Contracts.V1;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Records.Reviews;

/// <summary>
/// Lays what is known only today over a plan. What is given stands for what the plan says; areas, products and work are found
/// by their ids; any other list, once given, stands for the whole list.
/// </summary>
internal static class DayOverlay
{
    private static readonly string[] FoundById = ["areas", "products", "work"];

    /// <summary>The plan with the values of the day; both arguments stay as they are.</summary>
    public static Plan Lay(Plan today, Plan plan)
    {
        var result = plan.Clone();
        LayFields(today, result);
        return result;
    }

    private static void LayFields(IMessage from, IMessage onto)
    {
        foreach (var field in from.Descriptor.Fields.InDeclarationOrder())
        {
            var value = field.Accessor.GetValue(from);
            if (field.IsRepeated)
            {
                LayList((IList)value, (IList)field.Accessor.GetValue(onto), field);
            }
            else if (IsGiven(from, field, value))
            {
                if (value is IMessage message && GoesThrough(field) && field.Accessor.GetValue(onto) is IMessage below)
                {
                    LayFields(message, below);
                }
                else
                {
                    field.Accessor.SetValue(onto, value);
                }
            }
        }
    }

    private static void LayList(IList from, IList onto, FieldDescriptor field)
    {
        if (from.Count == 0)
        {
            return;
        }

        if (field.ContainingType != Plan.Descriptor || !FoundById.Contains(field.Name))
        {
            onto.Clear();
            AddAll(from, onto);
            return;
        }

        var id = field.MessageType.FindFieldByName("id");
        var known = onto.Cast<IMessage>().ToLookup(entry => (string)id.Accessor.GetValue(entry), StringComparer.Ordinal);
        foreach (var entry in from.Cast<IMessage>())
        {
            if (known[(string)id.Accessor.GetValue(entry)].FirstOrDefault() is { } same)
            {
                LayFields(entry, same);
            }
            else
            {
                onto.Add(entry);
            }
        }
    }

    private static void AddAll(IList from, IList onto)
    {
        foreach (var entry in from)
        {
            onto.Add(entry);
        }
    }

    private static bool IsGiven(IMessage from, FieldDescriptor field, object value) => field.HasPresence ? field.Accessor.HasValue(from) : value switch
    {
        string text => text.Length > 0,
        System.Enum number => System.Convert.ToInt32(number, System.Globalization.CultureInfo.InvariantCulture) != 0,
        _ => true,
    };

    // A quantity, an instant and a wrapped list are one value each: an empty list that is given says "none".
    private static bool GoesThrough(FieldDescriptor field) =>
        field.MessageType.FullName != Timestamp.Descriptor.FullName
        && field.MessageType.File != QuantitiesReflection.Descriptor
        && !field.MessageType.Fields.InDeclarationOrder().All(inner => inner.IsRepeated);
}
