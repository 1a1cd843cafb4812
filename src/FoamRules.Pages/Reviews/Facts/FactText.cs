using System.Collections;
using System.Globalization;
using FoamRules.Pages.Site;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using Violation = FoamRules.Model.Violation;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>Reads what was typed into a message. Nothing is guessed: what cannot be read is said, and what is empty is not known.</summary>
internal static class FactText
{
    private static readonly char[] Between = [' ', '\t', '\r', '\n', ';'];

    /// <summary>Sets a field, or takes it out where nothing was typed.</summary>
    /// <param name="root">The message at which the path begins.</param>
    /// <param name="path">The field's path below it.</param>
    /// <param name="fact">The fact.</param>
    /// <param name="text">What was typed.</param>
    /// <param name="unit">The unit that the form showed beside it.</param>
    /// <param name="timeZone">The site's time zone.</param>
    /// <param name="words">The words of the page.</param>
    /// <param name="wrong">Takes what cannot be read.</param>
    public static void Set(IMessage root, string path, Fact fact, string text, string unit, string timeZone, PageWords words, List<Violation> wrong)
    {
        if (fact.Field is not { } field)
        {
            return;
        }

        text = text.Trim();
        var at = path.LastIndexOf('.');
        if (text.Length == 0)
        {
            if ((at < 0 ? root : PlanPath.Part(root, path[..at])) is { } there)
            {
                field.Accessor.Clear(there);
            }

            return;
        }

        if (Read(fact, field, text, unit, timeZone, words, wrong) is not { } value)
        {
            return;
        }

        var owner = at < 0 ? root : PlanPath.Made(root, path[..at]);
        if (value is not IEnumerable<object> many)
        {
            field.Accessor.SetValue(owner, value);
            return;
        }

        var list = (IList)field.Accessor.GetValue(owner);
        list.Clear();
        foreach (var one in many)
        {
            list.Add(one);
        }
    }

    /// <summary>A number as people type it, with a point or a comma; null where it is none.</summary>
    public static double? Number(string text) =>
        double.TryParse(text.Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number) ? number : null;

    /// <summary>A time on the site's clock; null where it is none, or where that clock skips it.</summary>
    public static DateTimeOffset? Instant(string text, string timeZone)
    {
        if (!DateTime.TryParseExact(text, ["yyyy-MM-dd'T'HH:mm", "yyyy-MM-dd'T'HH:mm:ss", "yyyy-MM-dd HH:mm"], CultureInfo.InvariantCulture, DateTimeStyles.None, out var local))
        {
            return null;
        }

        var zone = timeZone.Length > 0 && TimeZoneInfo.TryFindSystemTimeZoneById(timeZone, out var known) ? known : TimeZoneInfo.Utc;
        return zone.IsInvalidTime(local) ? null : new DateTimeOffset(local, zone.GetUtcOffset(local));
    }

    private static object? Read(Fact fact, FieldDescriptor field, string text, string unit, string timeZone, PageWords words, List<Violation> wrong)
    {
        switch (fact.Kind)
        {
            case FactKind.YesNo:
                return text == "true" ? true : text == "false" ? false : Wrong("yes-no");
            case FactKind.Instant:
                return Instant(text, timeZone) is { } at ? Timestamp.FromDateTimeOffset(at) : Wrong("instant");
            case FactKind.Choice:
                return Chosen(text) is { } one ? one : Wrong("choice");
            case FactKind.Choices:
                var chosen = text.Split([',', .. Between], StringSplitOptions.RemoveEmptyEntries).Select(Chosen).ToList();
                return chosen.Contains(null) ? Wrong("choice") : chosen.OfType<object>().ToList();
            case FactKind.Number when field.FieldType == FieldType.Int32:
                return int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) ? count : Wrong("count");
            case FactKind.Number when field.FieldType == FieldType.Double:
                return Number(text) is { } bare ? bare : Wrong("number");
            case FactKind.Number:
                return Number(text) is { } number && UnitOf(field, unit) is { } of ? Quantity(number, of) : Wrong("number");
            case FactKind.Numbers:
                var numbers = text.Split(Between, StringSplitOptions.RemoveEmptyEntries).Select(Number).ToList();
                return numbers.Contains(null) || UnitOf(field, unit) is not { } each ? Wrong("numbers") : numbers.Select(value => (object)Quantity(value!.Value, each)).ToList();
            default:
                return text;
        }

        // The numbers of an enum's values; the accessor wants the enum itself.
        object? Chosen(string number) => fact.Names.Any(name => name.Number.ToString(CultureInfo.InvariantCulture) == number)
            ? System.Enum.ToObject(field.EnumType.ClrType, int.Parse(number, CultureInfo.InvariantCulture))
            : null;

        object? Wrong(string kind)
        {
            wrong.Add(new Violation(fact.Path, $"`{(text.Length > 60 ? text[..60] + "…" : text)}`", words[$"typed-{kind}"], words["typed-remedy"]));
            return null;
        }
    }

    private static FieldDescriptor? UnitOf(FieldDescriptor field, string unit) => field.MessageType.FindFieldByName(unit);

    private static IMessage Quantity(double number, FieldDescriptor unit)
    {
        var quantity = unit.ContainingType.Parser.ParseFrom(ByteString.Empty);
        unit.Accessor.SetValue(quantity, number);
        return quantity;
    }
}
