using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Exchange;

/// <summary>Collects values of a type known only when the program runs into an <see cref="ImmutableArray{T}"/> of that type.</summary>
internal abstract class ListBuilder
{
    // The entries of lists that are values stand here for native programs, which cannot make one of these for a value while they run.
    private static readonly ConcurrentDictionary<Type, Func<int, ListBuilder>> Makers = new(
    [
        Maker<Density>(), Maker<Length>(),
        Maker<Change>(), Maker<CrewTask>(), Maker<EyeProtection>(), Maker<FallProtection>(), Maker<FoamUse>(), Maker<WasteStream>(),
    ]);

    public abstract void Add(object value);

    public abstract object ToImmutableArray();

    [DynamicDependency(DynamicallyAccessedMemberTypes.PublicConstructors, typeof(Of<>))]
    public static ListBuilder For(Type type, int capacity) =>
        Makers.GetOrAdd(type, static type =>
        {
            var constructor = typeof(Of<>).MakeGenericType(type).GetConstructor([typeof(int)])!;
            return capacity => (ListBuilder)constructor.Invoke([capacity]);
        })(capacity);

    private static KeyValuePair<Type, Func<int, ListBuilder>> Maker<T>() => new(typeof(T), static capacity => new Of<T>(capacity));

    private sealed class Of<T>(int capacity) : ListBuilder
    {
        private readonly ImmutableArray<T>.Builder _builder = ImmutableArray.CreateBuilder<T>(capacity);

        public override void Add(object value) => _builder.Add((T)value);

        public override object ToImmutableArray() => _builder.ToImmutable();
    }
}
