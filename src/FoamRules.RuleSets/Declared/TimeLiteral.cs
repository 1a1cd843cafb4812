using System.Globalization;
using System.Text.RegularExpressions;

namespace FoamRules.RuleSets.Declared;

/// <summary>Dates, instants and lengths of time that are written out in an expression.</summary>
internal static partial class TimeLiteral
{
    public static DateOnly Date(string text, int at) => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date)
        ? date
        : throw new ExpressionException(at, $"the date `{text}`", "a calendar date", "write it like 2026-04-14");

    public static DateTimeOffset Timestamp(string text, int at) =>
        InstantForm().IsMatch(text) && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var instant)
            ? instant
            : throw new ExpressionException(at, $"the instant `{text}`", "an instant of the years 1 to 9999 with its offset, no finer than 100 ns", "write it like 2026-04-14T08:00:00-05:00");

    /// <summary>A length of time in seconds.</summary>
    public static double Duration(string text, int at)
    {
        var match = DurationForm().Match(text);
        if (!match.Success)
        {
            throw Wrong();
        }

        var seconds = 0m;
        for (var i = 0; i < match.Groups["number"].Captures.Count; i++)
        {
            var unit = match.Groups["unit"].Captures[i].Value switch { "h" => 3600m, "m" => 60m, "s" => 1m, "ms" => 1e-3m, "us" or "µs" => 1e-6m, _ => 1e-9m };
            if (!decimal.TryParse(match.Groups["number"].Captures[i].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) || number > 1e15m)
            {
                throw Wrong();
            }

            seconds += number * unit;
        }

        var whole = seconds * TimeSpan.TicksPerSecond;
        if ((double)seconds > Numbers.LongestSeconds || whole != decimal.Truncate(whole))
        {
            throw Wrong();
        }

        return (double)(text[0] == '-' ? -seconds : seconds);

        ExpressionException Wrong() => new(at, $"the length of time `{text}`", "at most 292 years, no finer than 100 ns", "write it like 2h30m, or use hours(2)");
    }

    [GeneratedRegex(@"^\d{4}-\d\d-\d\d[Tt]\d\d:\d\d:\d\d(\.\d{1,7}0*)?([Zz]|[+-]\d\d:\d\d)$", RegexOptions.CultureInvariant)]
    private static partial Regex InstantForm();

    [GeneratedRegex(@"^[+-]?((?<number>\d+(\.\d*)?|\.\d+)(?<unit>h|ms|us|µs|ns|m|s))+$", RegexOptions.CultureInvariant)]
    private static partial Regex DurationForm();
}
