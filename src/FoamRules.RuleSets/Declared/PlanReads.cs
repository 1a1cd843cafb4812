using System.Collections.Immutable;
using System.Runtime.InteropServices;
using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>How compiled expressions read fields of the plan: each read is noted, and so is each field that is not given.</summary>
internal static class PlanReads
{
    public static Value<T> Single<T>(Frame frame, PlanNode node, Field field, T? value)
        where T : struct
    {
        if (value is not { } given)
        {
            return frame.Lacks<T>(node, field);
        }

        frame.Read(node, field);
        return new Value<T>(given);
    }

    public static Value<string> Text(Frame frame, PlanNode node, Field field, string? value)
    {
        if (string.IsNullOrEmpty(value))
        {
            return frame.Lacks<string>(node, field);
        }

        frame.Read(node, field);
        return new Value<string>(value);
    }

    // A part that is not given is an empty one: what is asked of it is missing then, field by field.
    public static Value<T> Part<T>(Frame frame, PlanNode node, Field field, T? value)
        where T : PlanNode, new() =>
        new(value ?? frame.StandIn(new T() with { Where = new PathStep(node.Where, field.Name, null) }, node, field));

    // An empty list says "none" only where it is the one field of a part that is given. Everywhere else it says nothing.
    public static Value<T[]> List<T>(Frame frame, PlanNode node, Field field, ImmutableArray<T> items)
    {
        if (items.IsEmpty)
        {
            if (!field.CanBeEmpty)
            {
                return frame.Lacks<T[]>(node, field);
            }

            if (frame.StandsFor(node) is var (parent, part))
            {
                return frame.Lacks<T[]>(parent, part);
            }
        }

        frame.Read(node, field);
        return new Value<T[]>(ImmutableCollectionsMarshal.AsArray(items)!);
    }

    public static Value<TTo[]> Convert<TFrom, TTo>(Value<TFrom[]> items, Func<TFrom, TTo> convert) =>
        items.State == State.Known ? new Value<TTo[]>(Array.ConvertAll(items.Result, item => convert(item))) : Value.Unknown<TTo[]>(items.State);

    public static Value<bool> Has(Frame frame, PlanNode node, Field field, bool given)
    {
        var isGiven = given || (field.CanBeEmpty && frame.StandsFor(node) is null);
        frame.Read(node, field, isGiven);
        return new Value<bool>(isGiven);
    }
}
