using System.Linq.Expressions;

namespace FoamRules.RuleSets.Declared;

/// <summary>Macros: conditions and values for each entry of a list.</summary>
internal sealed partial class Binder
{
    private Bound BindMacro(Call call, Syntax on)
    {
        var list = Bind(on);
        if (list.Type is not ListType { Item: var itemType })
        {
            throw new ExpressionException(list.At, $"{call.Function}() of {list.Type}", $"{call.Function}() of a list", "name a list");
        }

        if (call.Arguments is not [Name name, var body])
        {
            throw new ExpressionException(call.FunctionAt, $"{call.Function}() of something else", $"a name and what it is asked, such as {call.Function}(x, x.thickness > inches(1))", "write it so");
        }

        if (_items.Count >= MaxMacroDepth)
        {
            throw new ExpressionException(call.FunctionAt, $"{call.Function}() inside {MaxMacroDepth} others", $"at most {MaxMacroDepth} within each other", "simplify the expression");
        }

        if (_items.ContainsKey(name.Text) || scope.Variables.ContainsKey(name.Text) || name.Text == "limits")
        {
            throw new ExpressionException(name.At, $"the name `{name.Text}`, which stands for something already", "a new name", "choose another");
        }

        var item = Expression.Variable(Code.ValueOf(itemType.Clr), name.Text);
        _items[name.Text] = new Bound(itemType, item, name.At) { IsField = true };
        var each = call.Function == "map" ? Bind(body) : Condition(body);
        _items.Remove(name.Text);
        return call.Function switch
        {
            "all" => Quantified(list, item, each, nameof(Value.And), true, call.At),
            "exists" => Quantified(list, item, each, nameof(Value.Or), false, call.At),
            "exists_one" => ExistsOne(list, item, each, call.At),
            "filter" => Collected(list, item, Keep(item, each), itemType, call.At),
            _ => Collected(list, item, collector => Expression.Call(collector, nameof(Collector<>.Add), [], each.Code), each.Type, call.At),
        };
    }

    // All entries are looked at, also after one has decided: which one comes first must not change what the report shows.
    private Bound Quantified(Bound list, ParameterExpression item, Bound each, string join, bool ofNone, int at)
    {
        var result = Expression.Variable(typeof(Value<bool>));
        var mark = Expression.Variable(typeof(int));
        var code = Code.Lift(list.Code, typeof(bool), items => Expression.Block(
            [result, mark],
            Expression.Assign(mark, Expression.Call(Frame, nameof(Declared.Frame.Mark), [])),
            Expression.Assign(result, Code.Constant(ofNone, typeof(bool))),
            Code.ForEach(Frame, items, item, Expression.Assign(result, Code.Call(typeof(Value), join, [], result, each.Code))),
            Expression.Call(Frame, nameof(Declared.Frame.Settle), [], mark, result)));
        return new Bound(ExpressionType.Bool, code, at);
    }

    private Bound ExistsOne(Bound list, ParameterExpression item, Bound each, int at)
    {
        var kept = Collected(list, item, Keep(item, each), ((ListType)list.Type).Item, at);
        return new Bound(ExpressionType.Bool, Code.Lift(kept.Code, typeof(bool), items => Expression.Equal(Expression.ArrayLength(items), Expression.Constant(1))), at);
    }

    private static Func<Expression, Expression> Keep(ParameterExpression item, Bound condition) =>
        collector => Expression.Call(collector, nameof(Collector<>.AddIf), [], item, condition.Code);

    private Bound Collected(Bound list, ParameterExpression item, Func<Expression, Expression> add, ExpressionType type, int at)
    {
        var collector = Expression.Variable(typeof(Collector<>).MakeGenericType(type.Clr));
        var code = Code.Lift(list.Code, type.Clr.MakeArrayType(), items => Expression.Block(
            [collector],
            Expression.Assign(collector, Expression.New(collector.Type)),
            Code.ForEach(Frame, items, item, add(collector)),
            Expression.Call(collector, nameof(Collector<>.All), [])));
        return new Bound(new ListType(type), code, at);
    }
}

/// <summary>Takes in the entries of a new list; one that is not known makes the whole list unknown.</summary>
internal sealed class Collector<T>
{
    private readonly List<T> _items = [];
    private State _state;

    public void Add(Value<T> item)
    {
        _state = Lists.Worse(_state, item.State);
        _items.Add(item.Result);
    }

    public void AddIf(Value<T> item, Value<bool> condition)
    {
        _state = Lists.Worse(_state, condition.State);
        if (condition.Result)
        {
            Add(item);
        }
    }

    public Value<T[]> All() => _state == State.Known ? new Value<T[]>([.. _items]) : Value.Unknown<T[]>(_state);
}
