using System.Linq.Expressions;
using System.Reflection;
using System.Runtime.CompilerServices;
using NRules.Extensibility;

namespace FoamRules.Rules.Engine;

/// <summary>
/// Compiles what a rule asks and does once it has done so often; until then it is interpreted. Compiling all of them takes far longer
/// than a check, and a command that checks one plan needs each a few times.
/// </summary>
internal sealed class TieredExpressionCompiler : IExpressionCompiler
{
    private const int Often = 64;

    /// <inheritdoc/>
    public TDelegate Compile<TDelegate>(Expression<TDelegate> expression)
        where TDelegate : Delegate
    {
        // The rule engine's own types are not public, so the delegate is made by reflection.
        var type = typeof(TDelegate);
        var tiered = !type.IsGenericType ? null
            : type.GetGenericTypeDefinition() == typeof(Action<,>) ? typeof(Doing<,>)
            : type.GetGenericTypeDefinition() == typeof(Func<,>) ? typeof(Asking<,>)
            : null;
        // A native program interprets all of them, always.
        if (tiered is null || !RuntimeFeature.IsDynamicCodeSupported)
        {
            return expression.Compile();
        }

        var made = tiered.MakeGenericType(type.GetGenericArguments());
        return made.GetMethod("Run", BindingFlags.Public | BindingFlags.Instance)!.CreateDelegate<TDelegate>(Activator.CreateInstance(made, expression));
    }

    private class Tiered<TDelegate>(Expression<TDelegate> expression)
        where TDelegate : Delegate
    {
        private TDelegate? _interpreted, _compiled;
        private int _runs;

        // Two callers at once may both make it; either will do.
        protected TDelegate Now => _compiled ?? (Interlocked.Increment(ref _runs) > Often
            ? _compiled = expression.Compile()
            : _interpreted ??= expression.Compile(preferInterpretation: true));
    }

    private sealed class Doing<T1, T2>(Expression<Action<T1, T2>> expression) : Tiered<Action<T1, T2>>(expression)
    {
        public void Run(T1 first, T2 second) => Now(first, second);
    }

    private sealed class Asking<T, TResult>(Expression<Func<T, TResult>> expression) : Tiered<Func<T, TResult>>(expression)
    {
        public TResult Run(T asked) => Now(asked);
    }
}
