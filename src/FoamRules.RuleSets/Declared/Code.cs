using System.Linq.Expressions;
using System.Reflection;

namespace FoamRules.RuleSets.Declared;

/// <summary>Pieces of expression trees that the binder puts together.</summary>
internal static class Code
{
    public static Type ValueOf(Type type) => typeof(Value<>).MakeGenericType(type);

    public static Expression Result(Expression value) => Expression.Field(value, nameof(Value<>.Result));

    public static Expression State(Expression value) => Expression.Field(value, nameof(Value<>.State));

    public static Expression IsKnown(Expression value) => Expression.Equal(State(value), Expression.Constant(Declared.State.Known));

    public static Expression Constant(object value, Type type) =>
        Expression.Constant(Activator.CreateInstance(ValueOf(type), value, Declared.State.Known), ValueOf(type));

    /// <summary>A static method of this namespace, called.</summary>
    public static Expression Call(Type owner, string method, Type[] types, params Expression[] arguments)
    {
        var found = owner.GetMethod(method, BindingFlags.Static | BindingFlags.Public)!;
        return Expression.Call(types.Length == 0 ? found : found.MakeGenericMethod(types), arguments);
    }

    /// <summary>What is worked out of one value where it is known.</summary>
    public static Expression Lift(Expression value, Type to, Func<Expression, Expression> work)
    {
        var held = Expression.Variable(value.Type);
        return Expression.Block([held], Expression.Assign(held, value), Expression.Condition(
            IsKnown(held), Wrap(work(Result(held)), to), Call(typeof(Value), nameof(Value.Unknown), [to], State(held))));
    }

    /// <summary>What is worked out of two values where both are known.</summary>
    public static Expression Lift(Expression left, Expression right, Type to, Func<Expression, Expression, Expression> work)
    {
        var first = Expression.Variable(left.Type);
        var second = Expression.Variable(right.Type);
        return Expression.Block([first, second], Expression.Assign(first, left), Expression.Assign(second, right), Expression.Condition(
            Expression.AndAlso(IsKnown(first), IsKnown(second)), Wrap(work(Result(first), Result(second)), to), Call(typeof(Value), nameof(Value.UnknownBoth), [to], State(first), State(second))));
    }

    /// <summary>A loop over a list, counting its steps.</summary>
    public static Expression ForEach(Expression frame, Expression items, ParameterExpression item, Expression body)
    {
        var index = Expression.Variable(typeof(int));
        var done = Expression.Label();
        return Expression.Block(
            [index, item],
            Expression.Assign(index, Expression.Constant(0)),
            Expression.Loop(
                Expression.IfThenElse(
                    Expression.LessThan(index, Expression.ArrayLength(items)),
                    Expression.Block(
                        Expression.Call(frame, nameof(Frame.Step), []),
                        Expression.Assign(item, Expression.New(item.Type.GetConstructors()[0], Expression.ArrayIndex(items, index), Expression.Constant(Declared.State.Known))),
                        Expression.PreIncrementAssign(index),
                        body),
                    Expression.Break(done)),
                done));
    }

    // Work that can fail gives a Value itself.
    private static Expression Wrap(Expression work, Type to) =>
        work.Type == ValueOf(to) ? work : Expression.New(ValueOf(to).GetConstructors()[0], work, Expression.Constant(Declared.State.Known));
}
