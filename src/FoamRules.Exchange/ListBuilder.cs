using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace FoamRules.Exchange;

/// <summary>Collects values of a type known only when the program runs into an <see cref="ImmutableArray{T}"/> of that type.</summary>
internal abstract class ListBuilder
{
    private static readonly ConcurrentDictionary<Type, Func<int, ListBuilder>> Makers = new();

    public abstract void Add(object value);

    public abstract object ToImmutableArray();

    public static ListBuilder For(Type type, int capacity) =>
        Makers.GetOrAdd(type, static type =>
        {
            var constructor = typeof(Of<>).MakeGenericType(type).GetConstructor([typeof(int)])!;
            return capacity => (ListBuilder)constructor.Invoke([capacity]);
        })(capacity);

    private sealed class Of<T>(int capacity) : ListBuilder
    {
        private readonly ImmutableArray<T>.Builder _builder = ImmutableArray.CreateBuilder<T>(capacity);

        public override void Add(object value) => _builder.Add((T)value);

        public override object ToImmutableArray() => _builder.ToImmutable();
    }
}
