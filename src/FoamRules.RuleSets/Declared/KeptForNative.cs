using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Reflection;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.RuleSets.Declared;

/// <summary>
/// What <see cref="Code"/> makes by reflection, for each type of value that expressions know. A native program has code only for those
/// generic types and methods over values that its compiler has seen; all classes share one. Nothing calls this: it is there to be seen.
/// </summary>
internal static class KeptForNative
{
    private const BindingFlags Flags = BindingFlags.Static | BindingFlags.Public;

    // Operators that expressions find by name.
    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicMethods, typeof(DateTimeOffset))]
    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicMethods, typeof(DateOnly))]
    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicMethods, typeof(bool))]
    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicMethods, typeof(string))]
    [DynamicDependency(DynamicallyAccessedMemberTypes.All, typeof(Frame))]
    internal static void Types()
    {
        OfValue<bool>();
        OfValue<int>();
        OfValue<long>();
        OfValue<double>();
        OfValue<DateTimeOffset>();
        OfValue<DateOnly>();
        Of<object>();
        Of<bool[]>();
        Whole(typeof(ImmutableArray<object>));
        _ = typeof(PlanReads).GetMethod(nameof(PlanReads.Part), Flags)!.MakeGenericMethod(typeof(Site));
    }

    /// <summary>The entries of lists in a plan that are values, and what stands for each in an expression.</summary>
    internal static void Entries()
    {
        Entry<Density, double>();
        Entry<Length, double>();
        Entry<Change, int>();
        Entry<CrewTask, int>();
        Entry<EyeProtection, int>();
        Entry<FallProtection, int>();
        Entry<FoamUse, int>();
        Entry<WasteStream, int>();
    }

    private static void Entry<TFrom, TTo>()
    {
        Whole(typeof(TFrom));
        Whole(typeof(ImmutableArray<TFrom>));
        Whole(typeof(Value<TFrom[]>));
        Whole(typeof(Func<TFrom, TTo>));
        _ = typeof(PlanReads).GetMethod(nameof(PlanReads.List), Flags)!.MakeGenericMethod(typeof(TFrom));
        _ = typeof(PlanReads).GetMethod(nameof(PlanReads.Convert), Flags)!.MakeGenericMethod(typeof(TFrom), typeof(TTo));
    }

    private static void OfValue<T>()
        where T : struct
    {
        Of<T>();
        Whole(typeof(T?));
        _ = typeof(PlanReads).GetMethod(nameof(PlanReads.Single), Flags)!.MakeGenericMethod(typeof(T));
    }

    private static void Of<T>()
    {
        Whole(typeof(Value<T>));
        Whole(typeof(Value<T>[]));
        Whole(typeof(Value<T[]>));
        Whole(typeof(Collector<T>));
        _ = typeof(Value).GetMethod(nameof(Value.Known), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Value).GetMethod(nameof(Value.Unknown), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Value).GetMethod(nameof(Value.UnknownBoth), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.Gather), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.At), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.Has), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.AreEqual), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.Join), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(Lists).GetMethod(nameof(Lists.Size), Flags)!.MakeGenericMethod(typeof(T));
        _ = typeof(PlanReads).GetMethod(nameof(PlanReads.List), Flags)!.MakeGenericMethod(typeof(T));
    }

    private static void Whole([DynamicallyAccessedMembers(DynamicallyAccessedMemberTypes.All)] Type type) => _ = type;
}
