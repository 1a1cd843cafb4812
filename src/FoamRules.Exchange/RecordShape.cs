using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Reflection;
using System.Runtime.CompilerServices;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange;

/// <summary>Which property of a record takes which field of a message: the one of the same name. Found once a type.</summary>
internal sealed class RecordShape
{
    private static readonly ConcurrentDictionary<(MessageDescriptor, Type), RecordShape> Known = new();

    private RecordShape(MessageDescriptor message, Type record)
    {
        Record = record;
        Members = [.. message.Fields.InDeclarationOrder().Select(field => new Member(field, record))];
        var constructor = record.GetConstructors().OrderBy(candidate => candidate.GetParameters().Length).Last();
        Constructor = constructor.GetParameters().Length == 0 ? null : constructor;
    }

    /// <summary>The record's type.</summary>
    public Type Record { get; }

    /// <summary>The fields in the order of the contract.</summary>
    public ImmutableArray<Member> Members { get; }

    /// <summary>The constructor of a positional record; null where the properties are set one by one.</summary>
    public ConstructorInfo? Constructor { get; }

    public static RecordShape Of(MessageDescriptor message, Type record) =>
        Known.GetOrAdd((message, record), static pair => new RecordShape(pair.Item1, pair.Item2));

    /// <summary>One field and its property.</summary>
    internal sealed class Member
    {
        private readonly Access _access;

        public Member(FieldDescriptor field, Type record)
        {
            Field = field;
            Property = record.GetProperty(field.PropertyName)
                ?? throw new InvalidOperationException($"{record.Name} has no property for the field {field.Name}");
            var type = Property.PropertyType;
            var isList = type.IsGenericType && type.GetGenericTypeDefinition() == typeof(ImmutableArray<>);
            Type = isList ? type.GetGenericArguments()[0] : Nullable.GetUnderlyingType(type) ?? type;
            // A native program has no Access<,> of a type that is known only when it runs; there reflection compiles nothing either.
            _access = !RuntimeFeature.IsDynamicCodeSupported ? new Reflected(Property) : (Access)Activator.CreateInstance(typeof(Access<,>).MakeGenericType(record, type), Property)!;
        }

        public FieldDescriptor Field { get; }

        public PropertyInfo Property { get; }

        /// <summary>The type of one value: the entry's type of a list, the bare type of a value that may be missing.</summary>
        public Type Type { get; }

        public void Set(object record, object? value) => _access.Set(record, value);

        public object? Get(object record) => _access.Get(record);
    }

    private abstract class Access
    {
        public abstract object? Get(object record);

        public abstract void Set(object record, object? value);
    }

    private sealed class Reflected(PropertyInfo property) : Access
    {
        public override object? Get(object record) => property.GetValue(record);

        public override void Set(object record, object? value) => property.SetValue(record, value);
    }

    // Reflection would have a method written and compiled for each property that is looked at twice; delegates share theirs.
    private sealed class Access<TRecord, TValue>(PropertyInfo property) : Access
    {
        private readonly Func<TRecord, TValue> _get = property.GetMethod!.CreateDelegate<Func<TRecord, TValue>>();
        private readonly Action<TRecord, TValue>? _set = property.SetMethod?.CreateDelegate<Action<TRecord, TValue>>();

        public override object? Get(object record) => _get((TRecord)record);

        public override void Set(object record, object? value) => _set!((TRecord)record, (TValue)value!);
    }
}
