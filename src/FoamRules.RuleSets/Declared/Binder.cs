using System.Linq.Expressions;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets.Declared;

/// <summary>
/// Gives names and types to an expression and the code that works it out. Everything that the language does not allow is refused
/// here, so that an evaluation can meet only values that are missing, and sums that have no result.
/// </summary>
internal sealed partial class Binder(ExpressionScope scope)
{
    /// <summary>The deepest nesting of macros such as <c>all</c>.</summary>
    public const int MaxMacroDepth = 2;

    private readonly Dictionary<string, Bound> _items = new(StringComparer.Ordinal);

    /// <summary>The parameter of the compiled code.</summary>
    public ParameterExpression Frame { get; } = Expression.Parameter(typeof(Frame));

    /// <summary>The limits that the expression names.</summary>
    public List<Limit> Limits { get; } = [];

    /// <summary>Binds an expression that says yes or no.</summary>
    public Bound Condition(Syntax syntax) => Wanted(Bind(syntax), ExpressionType.Bool);

    /// <summary>Binds an expression.</summary>
    public Bound Bind(Syntax syntax) => syntax switch
    {
        Literal literal => Constant(literal.Value, literal.At),
        Name name => BindName(name),
        Select select => BindSelect(select),
        Call call => BindCall(call),
        Index index => BindIndex(index),
        Unary unary => BindUnary(unary),
        Binary binary => BindBinary(binary),
        Conditional conditional => BindConditional(conditional),
        ListOf list => BindList(list),
        _ => throw new InvalidOperationException(syntax.GetType().Name),
    };

    private static Bound Constant(object value, int at)
    {
        var type = value switch { bool => ExpressionType.Bool, long => ExpressionType.Int, double => ExpressionType.Double, _ => ExpressionType.Text };
        return new Bound(type, Code.Constant(value, type.Clr), at) { Constant = value };
    }

    private Bound BindName(Name name)
    {
        if (_items.TryGetValue(name.Text, out var item))
        {
            return item with { At = name.At };
        }

        if (scope.Variables.TryGetValue(name.Text, out var variable))
        {
            var input = Expression.Property(Frame, nameof(Declared.Frame.Input));
            var read = Expression.Property(input, variable);
            return new Bound(ExpressionType.Of(variable.PropertyType), Code.Call(typeof(Value), nameof(Value.Known), [variable.PropertyType], read), name.At);
        }

        var known = _items.Keys.Concat(scope.Variables.Keys).Append("limits").ToList();
        throw new ExpressionException(name.At, $"the unknown name `{name.Text}`", string.Join(", ", known), Meant(known, name.Text, "begin with one of these"));
    }

    private Bound BindSelect(Select select)
    {
        if (PathBelow(select, "limits") is { } limit)
        {
            return BindLimit(limit, select);
        }

        var of = Bind(select.Of);
        var field = FieldOf(of, select);
        var read = Code.Lift(of.Code, field.Type.Clr, node => Read(node, field));
        return new Bound(field.Type, read, select.At) { IsField = true };
    }

    private static Field FieldOf(Bound of, Select select)
    {
        if (of.Type is not RecordType { Record: var record })
        {
            throw new ExpressionException(select.FieldAt, $"the field `{select.Field}` of {of.Type}", "fields of parts of a plan", "take it out");
        }

        var fields = Field.Of(record);
        return fields.GetValueOrDefault(select.Field)
            ?? throw new ExpressionException(select.FieldAt, $"the unknown field `{select.Field}`", string.Join(", ", fields.Keys), Meant(fields.Keys, select.Field, "use one of these"));
    }

    private Expression Read(Expression node, Field field)
    {
        var value = Expression.Property(node, field.Property);
        Expression[] about = [Frame, node, Expression.Constant(field)];
        switch (field.Type)
        {
            case RecordType { Record: var part }:
                return Code.Call(typeof(PlanReads), nameof(PlanReads.Part), [part], [.. about, value]);
            case ListType { Item: var item }:
                var entry = value.Type.GetGenericArguments()[0];
                var list = Code.Call(typeof(PlanReads), nameof(PlanReads.List), [entry], [.. about, value]);
                return entry == item.Clr ? list : Code.Call(typeof(PlanReads), nameof(PlanReads.Convert), [entry, item.Clr], list, Expression.Constant(Converter(entry, item)));
            case var _ when field.Type == ExpressionType.Text:
                return Code.Call(typeof(PlanReads), nameof(PlanReads.Text), [], [.. about, value]);
            default:
                return Code.Call(typeof(PlanReads), nameof(PlanReads.Single), [field.Type.Clr], [.. about, Plain(value, field.Type)]);
        }
    }

    // The bare value of a property that may be missing: quantities in their base unit, enums as their numbers.
    private static Expression Plain(Expression value, ExpressionType type)
    {
        var to = typeof(Nullable<>).MakeGenericType(type.Clr);
        if (Nullable.GetUnderlyingType(value.Type) is not { } bare)
        {
            // An enum that the contract does not let be missing; 0 is not given.
            var number = Expression.Convert(value, typeof(int));
            return Expression.Condition(Expression.Equal(number, Expression.Constant(0)), Expression.Constant(null, to), Expression.Convert(number, to));
        }

        return type is QuantityType
            ? Expression.Condition(Expression.Property(value, "HasValue"), Expression.Convert(InBase(Expression.Convert(value, bare)), to), Expression.Constant(null, to))
            : value.Type == to ? value : Expression.Convert(value, to);
    }

    private static MemberExpression InBase(Expression quantity) =>
        Expression.Property(quantity, Quantities.InfoOf(quantity.Type).BaseUnitInfo.PluralName);

    private static Delegate Converter(Type from, ExpressionType to)
    {
        var entry = Expression.Parameter(from);
        Expression body = to is QuantityType ? InBase(entry) : Expression.Convert(entry, to.Clr);
        return Expression.Lambda(typeof(Func<,>).MakeGenericType(from, to.Clr), body, entry).Compile();
    }

    private Bound BindLimit(string name, Select select)
    {
        if (!scope.Limits.TryGetValue(name, out var limit))
        {
            throw new ExpressionException(select.FieldAt, $"the unknown limit `{name}`", string.Join(", ", scope.Limits.Keys), Meant(scope.Limits.Keys, name, "state it under limits"));
        }

        Limits.Add(limit);
        var type = ExpressionType.Of(limit);
        if (type is ListType)
        {
            return ListOf([.. limit.Words.Select(word => Constant(word, select.At))], select.At) with { Limit = limit };
        }

        return new Bound(type, Code.Constant(PlainValue(limit.Value), type.Clr), select.At) { Limit = limit };
    }

    private static object PlainValue(Measure value) =>
        value switch
        {
            { Count: { } count } => count,
            { Date: { } date } => date,
            { Quantity: { } quantity } => Quantities.InBase(quantity),
            _ => value.Text!,
        };

    // The path below a name that is no variable here: limits.a.b is a.b.
    private string? PathBelow(Select select, string root) => select.Of switch
    {
        Name name when name.Text == root && !_items.ContainsKey(root) => select.Field,
        Select inner => PathBelow(inner, root) is { } path ? $"{path}.{select.Field}" : null,
        _ => null,
    };

    private static Bound Wanted(Bound bound, ExpressionType type) => bound.Type == type
        ? bound
        : throw new ExpressionException(bound.At, bound.Type.Shown, type.Shown, type == ExpressionType.Bool ? "compare it with something" : "use a value of that kind");

    private static string Meant(IEnumerable<string> known, string name, string otherwise)
    {
        var nearest = known.MinBy(other => Closeness.Distance(other, name));
        return nearest is not null && Closeness.Distance(nearest, name) <= Math.Max(2, name.Length / 3) ? $"did you mean {nearest}?" : otherwise;
    }
}
