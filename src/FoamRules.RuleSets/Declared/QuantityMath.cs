using System.Linq.Expressions;
using Kinds = (string First, string Second, string Product, double Factor);

namespace FoamRules.RuleSets.Declared;

/// <summary>Which sums, differences, products and quotients have a meaning, and of what kind they are.</summary>
internal static class QuantityMath
{
    // Products of kinds, in UnitsNet's base units; the quotients follow. A mass flow's base unit is the gram per second.
    private static readonly Kinds[] Products =
    [
        ("Length", "Length", "Area", 1),
        ("Length", "Area", "Volume", 1),
        ("Density", "Volume", "Mass", 1),
        ("MassConcentration", "Volume", "Mass", 1),
        ("Speed", "Duration", "Length", 1),
        ("VolumeFlow", "Duration", "Volume", 1),
        ("MassFlow", "Duration", "Mass", 0.001),
    ];

    /// <summary>True where a minus may stand before a value of the type.</summary>
    public static bool CanNegate(ExpressionType type) => type == ExpressionType.Int || type == ExpressionType.Double || IsLinear(type);

    /// <summary>The type of a result; null where it has no meaning.</summary>
    public static ExpressionType? TypeOf(string sign, ExpressionType left, ExpressionType right)
    {
        if (left is not QuantityType && right is not QuantityType)
        {
            return Plain(sign, left, right);
        }

        return sign switch
        {
            "+" when left == right && IsLinear(left) => left,
            "+" when Is(left, "Temperature") && Is(right, "TemperatureDelta") => left,
            "+" when Is(left, "TemperatureDelta") && Is(right, "Temperature") => right,
            "+" when left == ExpressionType.Timestamp && right == ExpressionType.Duration => left,
            "+" when left == ExpressionType.Duration && right == ExpressionType.Timestamp => right,
            "-" when left == right && IsLinear(left) => left,
            "-" when Is(left, "Temperature") && Is(right, "Temperature") => new QuantityType("TemperatureDelta"),
            "-" when Is(left, "Temperature") && Is(right, "TemperatureDelta") => left,
            "-" when left == ExpressionType.Timestamp && right == ExpressionType.Duration => left,
            "*" when IsLinear(left) && IsShare(right) => left,
            "*" when IsShare(left) && IsLinear(right) => right,
            "/" when IsLinear(left) && IsShare(right) && left != right => left,
            "/" when left == right && IsLinear(left) => ExpressionType.Double,
            "*" or "/" => Find(sign, left, right)?.Type,
            _ => null,
        };
    }

    /// <summary>The code of a result.</summary>
    public static Expression Code(string sign, Expression frame, ExpressionType left, ExpressionType right, ExpressionType type, Expression a, Expression b)
    {
        if (left == ExpressionType.Int && right == ExpressionType.Int)
        {
            var name = sign switch { "+" => nameof(Numbers.Add), "-" => nameof(Numbers.Subtract), "*" => nameof(Numbers.Multiply), "/" => nameof(Numbers.Divide), _ => nameof(Numbers.Remainder) };
            return Declared.Code.Call(typeof(Numbers), name, [], frame, a, b);
        }

        if (left == ExpressionType.Timestamp || right == ExpressionType.Timestamp || left == ExpressionType.Date)
        {
            return InTime(sign, frame, left, right, a, b);
        }

        if (type == ExpressionType.Text)
        {
            return Declared.Code.Call(typeof(Texts), nameof(Texts.Join), [], a, b);
        }

        if (type is ListType { Item: var item })
        {
            return Declared.Code.Call(typeof(Lists), nameof(Lists.Join), [item.Clr], a, b);
        }

        a = Expression.Convert(a, typeof(double));
        b = Expression.Convert(b, typeof(double));
        Expression result = sign switch { "+" => Expression.Add(a, b), "-" => Expression.Subtract(a, b), "*" => Expression.Multiply(a, b), _ => Expression.Divide(a, b) };
        if (left == ExpressionType.Double && right == ExpressionType.Double)
        {
            return result;
        }

        if (Find(sign, left, right) is { Factor: not 1 } found)
        {
            result = Expression.Multiply(result, Expression.Constant(found.Factor));
        }

        var most = type == ExpressionType.Duration ? Numbers.LongestSeconds : double.MaxValue;
        return Declared.Code.Call(typeof(Numbers), nameof(Numbers.Checked), [], frame, result, Expression.Constant(most));
    }

    private static Expression InTime(string sign, Expression frame, ExpressionType left, ExpressionType right, Expression a, Expression b)
    {
        if (left == right)
        {
            return Declared.Code.Call(typeof(Times), left == ExpressionType.Date ? nameof(Times.Days) : nameof(Times.Between), [], left == ExpressionType.Date ? [a, b] : [frame, a, b]);
        }

        var (instant, seconds) = left == ExpressionType.Timestamp ? (a, b) : (b, a);
        return Declared.Code.Call(typeof(Times), nameof(Times.Move), [], frame, instant, sign == "-" ? Expression.Negate(seconds) : seconds);
    }

    private static ExpressionType? Plain(string sign, ExpressionType left, ExpressionType right)
    {
        if (left != right)
        {
            return null;
        }

        return sign switch
        {
            _ when left == ExpressionType.Int => left,
            not "%" when left == ExpressionType.Double => left,
            "+" when left == ExpressionType.Text || left is ListType => left,
            "-" when left == ExpressionType.Timestamp || left == ExpressionType.Date => ExpressionType.Duration,
            _ => null,
        };
    }

    private static (ExpressionType Type, double Factor)? Find(string sign, ExpressionType left, ExpressionType right)
    {
        if (left is not QuantityType { Kind: var a } || right is not QuantityType { Kind: var b })
        {
            return null;
        }

        foreach (var (first, second, product, factor) in Products)
        {
            if (sign == "*" && ((a, b) == (first, second) || (b, a) == (first, second)))
            {
                return (new QuantityType(product), factor);
            }

            if (sign == "/" && a == product && (b == first || b == second))
            {
                return (new QuantityType(b == first ? second : first), 1 / factor);
            }
        }

        return null;
    }

    // A temperature and a sound level have no double: 20 °C is not twice 10 °C, nor 60 dB twice 30 dB.
    private static bool IsLinear(ExpressionType type) => type is QuantityType { Kind: not ("Temperature" or "Level") };

    private static bool IsShare(ExpressionType type) => type == ExpressionType.Int || type == ExpressionType.Double || Is(type, "Ratio");

    private static bool Is(ExpressionType type, string kind) => type is QuantityType quantity && quantity.Kind == kind;
}
