using System.Linq.Expressions;
using FoamRules.Model;
using FoamRules.RuleSets.Declared;

namespace FoamRules.RuleSets.Tests.Declared;

/// <summary>What came of an expression without any variable.</summary>
/// <param name="Refused">Why it does not load; null where it does.</param>
/// <param name="Failed">Why it has no result; null where it has one.</param>
/// <param name="Value">The result: a bool, long, double, string, DateTimeOffset, DateOnly or an array.</param>
internal sealed record PlainRun(string? Refused, string? Failed, object? Value)
{
    /// <summary>Loads and evaluates an expression.</summary>
    /// <param name="text">The expression.</param>
    /// <param name="compiled">Compile it, as is done with what is asked often; else it is interpreted, as what is asked for the first time.</param>
    public static PlainRun Of(string text, bool compiled)
    {
        Binder binder = new(ExpressionScope.Plain);
        Bound bound;
        try
        {
            bound = binder.Bind(SyntaxReader.Read(text));
        }
        catch (ExpressionException refusal)
        {
            return new PlainRun(refusal.Message, null, null);
        }

        var frame = new Frame(new ExpressionInput { Plan = new Plan(), Site = new Site(), Gear = new Gear() });
        var boxed = Expression.Convert(bound.Code, typeof(object));
        var value = Expression.Lambda<Func<Frame, object>>(boxed, binder.Frame).Compile(preferInterpretation: !compiled)(frame);
        var state = (State)value.GetType().GetField("State")!.GetValue(value)!;
        return state == State.Known ? new PlainRun(null, null, value.GetType().GetField("Result")!.GetValue(value)) : new PlainRun(null, frame.Failure, null);
    }
}
