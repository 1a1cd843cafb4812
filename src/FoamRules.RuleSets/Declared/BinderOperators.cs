using System.Collections.Immutable;
using System.Linq.Expressions;
using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>Operators.</summary>
internal sealed partial class Binder
{
    private Bound BindUnary(Unary unary)
    {
        var operand = Bind(unary.Operand);
        if (unary.Operator is "!" or "!!")
        {
            _ = Wanted(operand, ExpressionType.Bool);
            return unary.Operator == "!!" ? operand : new Bound(ExpressionType.Bool, Code.Lift(operand.Code, typeof(bool), Expression.Not), unary.At);
        }

        if (!QuantityMath.CanNegate(operand.Type))
        {
            throw new ExpressionException(operand.At, $"- before {operand.Type}", "a number, or a quantity that can be negative", "take the sign out");
        }

        return unary.Operator == "--" ? operand : new Bound(operand.Type, Code.Lift(operand.Code, operand.Type.Clr, value => operand.Type == ExpressionType.Int
            ? Code.Call(typeof(Numbers), nameof(Numbers.Negate), [], Frame, value)
            : Expression.Negate(value)), unary.At);
    }

    private Bound BindBinary(Binary binary)
    {
        switch (binary.Operator)
        {
            case "&&" or "||":
                return Logic(binary.Operator == "&&", Condition(binary.Left), Condition(binary.Right));
            case "in":
                return In(Bind(binary.Left), Bind(binary.Right));
            case "==" or "!=" or "<" or "<=" or ">" or ">=":
                return Compare(binary.Operator, Bind(binary.Left), Bind(binary.Right));
            default:
                return Arithmetic(binary.Operator, Bind(binary.Left), Bind(binary.Right));
        }
    }

    // The right side is not looked at where the left one decides; where the left one is not known, the right one may decide.
    private Bound Logic(bool isAnd, Bound left, Bound right)
    {
        var first = Expression.Variable(typeof(Value<bool>));
        var mark = Expression.Variable(typeof(int));
        var result = Code.Result(first);
        var decides = Expression.AndAlso(Code.IsKnown(first), isAnd ? Expression.Not(result) : result);
        var both = Code.Call(typeof(Value), isAnd ? nameof(Value.And) : nameof(Value.Or), [], first, right.Code);
        var code = Expression.Block(
            [first, mark],
            Expression.Assign(mark, Expression.Call(Frame, nameof(Declared.Frame.Mark), [])),
            Expression.Assign(first, left.Code),
            Expression.Condition(decides, first, Expression.Call(Frame, nameof(Declared.Frame.Settle), [], mark, both)));
        return new Bound(ExpressionType.Bool, code, left.At);
    }

    private Bound BindConditional(Conditional conditional)
    {
        var condition = Condition(conditional.Condition);
        var (yes, no) = Alike(Bind(conditional.Then), Bind(conditional.Else));
        if (yes.Type != no.Type)
        {
            throw Mismatch(yes, no, "the two sides of ? :");
        }

        var held = Expression.Variable(typeof(Value<bool>));
        var code = Expression.Block([held], Expression.Assign(held, condition.Code), Expression.Condition(
            Code.IsKnown(held),
            Expression.Condition(Code.Result(held), yes.Code, no.Code),
            Code.Call(typeof(Value), nameof(Value.Unknown), [yes.Type.Clr], Code.State(held))));
        return new Bound(yes.Type, code, conditional.At);
    }

    private Bound BindList(ListOf list)
    {
        if (list.Items.IsEmpty)
        {
            throw new ExpressionException(list.At, "an empty list", "at least one entry", "compare size() with 0");
        }

        return ListOf([.. list.Items.Select(Bind)], list.At);
    }

    private static Bound ListOf(ImmutableArray<Bound> items, int at)
    {
        if (items.FirstOrDefault(item => item.Type != items[0].Type) is { } other)
        {
            throw Mismatch(items[0], other, "entries of one list");
        }

        var type = items[0].Type;
        var array = Expression.NewArrayInit(Code.ValueOf(type.Clr), items.Select(item => item.Code));
        return new Bound(new ListType(type), Code.Call(typeof(Lists), nameof(Lists.Gather), [type.Clr], array), at) { Items = items };
    }

    private Bound BindIndex(Index index)
    {
        var list = Bind(index.Of);
        if (list.Type is not ListType { Item: var item })
        {
            throw new ExpressionException(list.At, $"[ ] after {list.Type}", "[ ] after a list", "take it out");
        }

        var number = Wanted(Bind(index.Number), ExpressionType.Int);
        var code = Code.Lift(list.Code, number.Code, item.Clr, (items, at) => Code.Call(typeof(Lists), nameof(Lists.At), [item.Clr], Frame, items, at));
        return new Bound(item, code, index.At) { IsField = true };
    }

    private static Bound In(Bound left, Bound right)
    {
        if (right.Type is not ListType { Item: var item })
        {
            throw new ExpressionException(right.At, right.Type.Shown, "a list after `in`", "write a list in brackets, or name a field that is a list");
        }

        if (left.Type is EnumType && right.Items is { IsDefault: false } words && item == ExpressionType.Text)
        {
            right = ListOf([.. words.Select(word => Word(word, left.Type))], right.At) with { Limit = right.Limit };
        }
        else
        {
            left = Word(left, item);
        }

        if (right.Type is not ListType { Item: var entry } || left.Type != entry || !CanEqual(left.Type))
        {
            throw Mismatch(left, right, "`in`");
        }

        var code = Code.Lift(left.Code, right.Code, typeof(bool), (value, items) => left.Type is QuantityType
            ? Code.Call(typeof(Lists), nameof(Lists.HasQuantity), [], items, value)
            : Code.Call(typeof(Lists), nameof(Lists.Has), [left.Type.Clr], items, value));
        return new Bound(ExpressionType.Bool, code, left.At);
    }

    private static Bound Compare(string sign, Bound left, Bound right)
    {
        (left, right) = Alike(LooserOf(left, sign, isLeft: true), LooserOf(right, sign, isLeft: false));
        var isOrder = sign is not ("==" or "!=");
        var areNumbers = IsNumber(left.Type) && IsNumber(right.Type);
        if ((left.Type != right.Type && !areNumbers) || !(isOrder ? CanOrder(left.Type) : CanEqual(left.Type)))
        {
            throw Mismatch(left, right, $"`{sign}`");
        }

        return new Bound(ExpressionType.Bool, Code.Lift(left.Code, right.Code, typeof(bool), (a, b) => Comparison(sign, left.Type, right.Type, a, b)), left.At)
        {
            Against = !isOrder ? null
                : left.IsField && right.Limit is { } most ? new FieldAgainstLimit(sign, most)
                : right.IsField && left.Limit is { } least ? new FieldAgainstLimit(sign[0] == '<' ? ">" + sign[1..] : "<" + sign[1..], least)
                : null,
        };
    }

    private static BinaryExpression Comparison(string sign, ExpressionType type, ExpressionType other, Expression a, Expression b)
    {
        var zero = Expression.Constant(0);
        return (type, other) switch
        {
            (QuantityType, _) => Sign(sign, Code.Call(typeof(Quantities), nameof(Quantities.CompareInBase), [], a, b), zero),
            (ListType { Item: var item }, _) => Sign(sign, Code.Call(typeof(Lists), nameof(Lists.AreEqual), [item.Clr], a, b), Expression.Constant(true)),
            _ when type != other => Sign(
                sign, type == ExpressionType.Int ? Order(a, b) : Expression.Negate(Order(b, a)), Expression.Constant(0.0)),
            _ when type == ExpressionType.Text => Sign(sign, Code.Call(typeof(Texts), nameof(Texts.Compare), [], a, b), zero),
            _ when type == ExpressionType.Bool && sign is not ("==" or "!=") => Sign(sign, Expression.Call(a, nameof(bool.CompareTo), [], b), zero),
            _ => Sign(sign, a, b),
        };

        static Expression Order(Expression whole, Expression number) => Code.Call(typeof(Numbers), nameof(Numbers.Order), [], whole, number);
    }

    private static BinaryExpression Sign(string sign, Expression a, Expression b) => sign switch
    {
        "==" => Expression.Equal(a, b),
        "!=" => Expression.NotEqual(a, b),
        "<" => Expression.LessThan(a, b),
        "<=" => Expression.LessThanOrEqual(a, b),
        ">" => Expression.GreaterThan(a, b),
        _ => Expression.GreaterThanOrEqual(a, b),
    };

    private Bound Arithmetic(string sign, Bound left, Bound right)
    {
        if (left.Limit?.Or is not null || right.Limit?.Or is not null)
        {
            throw new ExpressionException(left.At, "a limit with two figures", "a comparison with it", "compare it directly");
        }

        var type = QuantityMath.TypeOf(sign, left.Type, right.Type)
            ?? throw new ExpressionException(left.At, $"{left.Type} {sign} {right.Type}", "arithmetic with a meaning, by docs/expressions.md", "check kinds and units");
        return new Bound(type, Code.Lift(left.Code, right.Code, type.Clr, (a, b) => QuantityMath.Code(sign, Frame, left.Type, right.Type, type, a, b)), left.At);
    }

    // Where a source prints two figures, either satisfies: the looser one counts.
    private static Bound LooserOf(Bound bound, string sign, bool isLeft)
    {
        if (bound.Limit is not { Or: { } or } limit)
        {
            return bound;
        }

        if (sign is "==" or "!=")
        {
            throw new ExpressionException(bound.At, "a limit with two figures", "<, <=, > or >= before or after it", "compare it so");
        }

        var isMost = isLeft ? sign[0] == '>' : sign[0] == '<';
        var (first, second) = ((double)PlainValue(limit.Value), (double)PlainValue(or));
        return bound with { Code = Code.Constant(isMost ? Math.Max(first, second) : Math.Min(first, second), bound.Type.Clr) };
    }

    // A text literal beside an enum is one of the enum's words.
    private static (Bound Left, Bound Right) Alike(Bound left, Bound right) => (Word(left, right.Type), Word(right, left.Type));

    private static Bound Word(Bound bound, ExpressionType beside)
    {
        if (beside is not EnumType { Enum: var type } || bound.Constant is not string word)
        {
            return bound;
        }

        var words = EnumWords.Of(type).ToList();
        return EnumWords.Find(type, word) is { } number
            ? new Bound(beside, Code.Constant(number, typeof(int)), bound.At)
            : throw new ExpressionException(bound.At, $"the unknown word `{word}`", string.Join(", ", words), Meant(words, word, "use one of these"));
    }

    private static bool IsNumber(ExpressionType type) => type == ExpressionType.Int || type == ExpressionType.Double;

    private static bool CanOrder(ExpressionType type) => type is not (RecordType or ListType or EnumType);

    private static bool CanEqual(ExpressionType type) => type is not RecordType && (type is not ListType { Item: var item } || item is not (RecordType or QuantityType or ListType));

    private static ExpressionException Mismatch(Bound left, Bound right, string around) =>
        new(right.At, $"{left.Type} and {right.Type} at {around}", "two values of one kind", "check kinds and units");
}
