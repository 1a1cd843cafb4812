using System.Linq.Expressions;
using System.Reflection;
using NRules.Extensibility;

namespace FoamRules.Rules.Engine;

/// <summary>
/// Compiles what a rule does once it is done often; until then it is interpreted. Compiling all of them takes far longer than a check,
/// and a command that checks one plan does each a few times.
/// </summary>
internal sealed class RuleActionCompiler : IExpressionCompiler
{
    private const int OftenDone = 64;

    /// <inheritdoc/>
    public TDelegate Compile<TDelegate>(Expression<TDelegate> expression)
        where TDelegate : Delegate
    {
        // The rule engine's own types are not public, so the action is made by reflection; anything but an action of two is compiled.
        var type = typeof(TDelegate);
        return type.IsGenericType && type.GetGenericTypeDefinition() == typeof(Action<,>)
            ? typeof(Tiered<,>).MakeGenericType(type.GetGenericArguments()).GetMethod(nameof(Tiered<object, object>.Do), BindingFlags.Public | BindingFlags.Instance)!
                .CreateDelegate<TDelegate>(Activator.CreateInstance(typeof(Tiered<,>).MakeGenericType(type.GetGenericArguments()), expression))
            : expression.Compile();
    }

    private sealed class Tiered<T1, T2>(Expression<Action<T1, T2>> expression)
    {
        private readonly Lazy<Action<T1, T2>> _interpreted = new(() => expression.Compile(preferInterpretation: true)), _compiled = new(expression.Compile);
        private int _done;

        public void Do(T1 first, T2 second)
        {
            var often = _compiled.IsValueCreated || Interlocked.Increment(ref _done) > OftenDone;
            (often ? _compiled : _interpreted).Value(first, second);
        }
    }
}
