using System.Collections.Immutable;
using System.Linq.Expressions;
using FoamRules.Model;

namespace FoamRules.RuleSets.Declared;

/// <summary>Functions.</summary>
internal sealed partial class Binder
{
    private static readonly ImmutableArray<string> Functions =
        ["has", "size", "int", "double", "date", "timestamp", "duration", "contains", "startsWith", "endsWith", "all", "exists", "exists_one", "filter", "map"];

    private Bound BindCall(Call call)
    {
        if (call.On is { } on)
        {
            return call.Function switch
            {
                "all" or "exists" or "exists_one" or "filter" or "map" => BindMacro(call, on),
                "contains" => TextCall(call, on, nameof(Texts.Contains)),
                "startsWith" => TextCall(call, on, nameof(Texts.StartsWith)),
                "endsWith" => TextCall(call, on, nameof(Texts.EndsWith)),
                "size" => Size(Bind(Only(call with { Arguments = [on, .. call.Arguments] })), call.At),
                _ => throw UnknownFunction(call),
            };
        }

        return call.Function switch
        {
            "has" => Has(call),
            "size" => Size(Bind(Only(call)), call.At),
            "int" => Number(call, ExpressionType.Int),
            "double" => Number(call, ExpressionType.Double),
            "date" => new Bound(ExpressionType.Date, Code.Constant(TimeLiteral.Date(TextLiteral(call), call.At), typeof(DateOnly)), call.At),
            "timestamp" => new Bound(ExpressionType.Timestamp, Code.Constant(TimeLiteral.Timestamp(TextLiteral(call), call.At), typeof(DateTimeOffset)), call.At),
            "duration" => new Bound(ExpressionType.Duration, Code.Constant(TimeLiteral.Duration(TextLiteral(call), call.At), typeof(double)), call.At),
            _ when LimitReader.Units.TryGetValue(call.Function, out var unit) => Quantity(call, unit),
            _ => throw UnknownFunction(call),
        };
    }

    private Bound Has(Call call)
    {
        if (Only(call) is not Select select || PathBelow(select, "limits") is not null)
        {
            throw new ExpressionException(call.FunctionAt, "has() of something else", "has() of a field, such as has(area.enclosure)", "name a field");
        }

        var of = Bind(select.Of);
        var field = FieldOf(of, select);
        var code = Code.Lift(of.Code, typeof(bool), node =>
        {
            var value = Expression.Property(node, field.Property);
            return Code.Call(typeof(PlanReads), nameof(PlanReads.Has), [], Frame, node, Expression.Constant(field), IsGiven(value, field.Type));
        });
        return new Bound(ExpressionType.Bool, code, call.At);
    }

    private static Expression IsGiven(Expression value, ExpressionType type) => type switch
    {
        ListType => Expression.Not(Expression.Property(value, "IsEmpty")),
        RecordType => Expression.ReferenceNotEqual(value, Expression.Constant(null, value.Type)),
        _ when type == ExpressionType.Text => Expression.Not(Expression.Call(typeof(string), nameof(string.IsNullOrEmpty), [], value)),
        _ when Nullable.GetUnderlyingType(value.Type) is null => Expression.NotEqual(Expression.Convert(value, typeof(int)), Expression.Constant(0)),
        _ => Expression.Property(value, "HasValue"),
    };

    private static Bound Size(Bound of, int at)
    {
        if (of.Type != ExpressionType.Text && of.Type is not ListType)
        {
            throw new ExpressionException(of.At, $"size() of {of.Type}", "size() of a text or a list", "take it out");
        }

        var code = Code.Lift(of.Code, typeof(long), value => of.Type is ListType { Item: var item }
            ? Code.Call(typeof(Lists), nameof(Lists.Size), [item.Clr], value)
            : Code.Call(typeof(Texts), nameof(Texts.Size), [], value));
        return new Bound(ExpressionType.Int, code, at);
    }

    private Bound Number(Call call, ExpressionType to)
    {
        var of = Bind(Only(call));
        if (!IsNumber(of.Type))
        {
            throw new ExpressionException(of.At, $"{call.Function}() of {of.Type}", $"{call.Function}() of a number", "take it out");
        }

        return of.Type == to ? of : new Bound(to, Code.Lift(of.Code, to.Clr, value => to == ExpressionType.Double
            ? Expression.Convert(value, typeof(double))
            : Code.Call(typeof(Numbers), nameof(Numbers.Truncate), [], Frame, value)), call.At);
    }

    private Bound Quantity(Call call, Func<double, UnitsNet.IQuantity> unit)
    {
        var argument = Only(call);
        var of = Bind(argument is Unary { Operator: "-", Operand: Literal } minus ? minus.Operand : argument);
        if (of.Constant is not (long or double))
        {
            throw new ExpressionException(of.At, $"{call.Function}() of something else than a number", $"a number that is written out, such as {call.Function}(2)", "write the number");
        }

        var number = Convert.ToDouble(of.Constant, System.Globalization.CultureInfo.InvariantCulture) * (argument is Unary ? -1 : 1);
        var quantity = unit(number);
        var type = quantity is UnitsNet.Scalar ? ExpressionType.Double : new QuantityType(quantity.QuantityInfo.Name);
        return new Bound(type, Code.Constant(Quantities.InBase(quantity), typeof(double)), call.At);
    }

    private Bound TextCall(Call call, Syntax on, string method)
    {
        var text = Wanted(Bind(on), ExpressionType.Text);
        var part = Wanted(Bind(Only(call)), ExpressionType.Text);
        return new Bound(ExpressionType.Bool, Code.Lift(text.Code, part.Code, typeof(bool), (a, b) => Code.Call(typeof(Texts), method, [], a, b)), call.At);
    }

    private static string TextLiteral(Call call) => Only(call) is Literal { Value: string text }
        ? text
        : throw new ExpressionException(call.FunctionAt, $"{call.Function}() of something else than a text", $"{call.Function}('…') with a text that is written out", "write the text");

    private static Syntax Only(Call call) => call.Arguments is [var one]
        ? one
        : throw new ExpressionException(call.FunctionAt, $"{call.Function}() of {call.Arguments.Length} values", $"{call.Function}() of one value", "give one");

    private static ExpressionException UnknownFunction(Call call) => call.Function == "matches"
        ? new ExpressionException(call.FunctionAt, "matches()", "contains(), startsWith() and endsWith()", "regular expressions are not allowed: their cost has no bound")
        : new ExpressionException(
            call.FunctionAt, $"the unknown function `{call.Function}`", $"{string.Join(", ", Functions)}, and the names of units", Meant(Functions.Concat(LimitReader.Units.Keys), call.Function, "see docs/expressions.md"));
}
