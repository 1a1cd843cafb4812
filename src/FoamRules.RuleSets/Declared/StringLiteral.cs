using System.Globalization;
using System.Text;

namespace FoamRules.RuleSets.Declared;

/// <summary>Takes the quotes and escapes off a string literal. The grammar has seen to it that they are well formed.</summary>
internal static class StringLiteral
{
    /// <summary>The text that a literal stands for.</summary>
    /// <param name="literal">The literal with its quotes.</param>
    /// <param name="at">Where it begins in the expression.</param>
    public static string Read(string literal, int at)
    {
        var isRaw = literal[0] is 'r' or 'R';
        var quoted = isRaw ? literal[1..] : literal;
        var quotes = quoted.Length >= 6 && (quoted.StartsWith("'''", StringComparison.Ordinal) || quoted.StartsWith("\"\"\"", StringComparison.Ordinal)) ? 3 : 1;
        var inner = quoted[quotes..^quotes];
        if (isRaw || !inner.Contains('\\', StringComparison.Ordinal))
        {
            return inner;
        }

        var text = new StringBuilder(inner.Length);
        for (var i = 0; i < inner.Length; i++)
        {
            if (inner[i] != '\\')
            {
                text.Append(inner[i]);
                continue;
            }

            i++;
            var (digits, fromBase) = inner[i] switch { 'x' or 'X' => (2, 16), 'u' => (4, 16), 'U' => (8, 16), >= '0' and <= '3' => (3, 8), _ => (0, 0) };
            if (digits == 0)
            {
                text.Append(Plain(inner[i]));
                continue;
            }

            var start = fromBase == 8 ? i : i + 1;
            var code = Convert.ToUInt32(inner.Substring(start, digits), fromBase);
            text.Append(Rune.IsValid(code)
                ? new Rune(code).ToString()
                : throw new ExpressionException(at, $"the code point {code.ToString("X", CultureInfo.InvariantCulture)}", "a character of Unicode", "check the escape"));
            i = start + digits - 1;
        }

        return text.ToString();
    }

    private static char Plain(char escaped) => escaped switch
    {
        'a' => '\a',
        'b' => '\b',
        'f' => '\f',
        'n' => '\n',
        'r' => '\r',
        't' => '\t',
        'v' => '\v',
        _ => escaped,
    };
}
