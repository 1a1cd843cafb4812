using System.Collections;
using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using FoamRules.Model;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>
/// Checks the fields of messages against what the contract allows, and gathers everything that is wrong by the field's path.
/// One instance for one message: it remembers the ids that references must name.
/// </summary>
internal sealed class FieldChecker
{
    /// <summary>The most characters of a string whose field says nothing else.</summary>
    public const int MostCharacters = 2000;

    /// <summary>The greatest number in any unit: more is no quantity of a building.</summary>
    public const double MostOfAnything = 1e12;

    /// <summary>The least number in any unit that is not nothing: with it, no calculation leaves what a number can be.</summary>
    public const double LeastButNothing = 1e-18;

    private static readonly ConcurrentDictionary<FieldDescriptor, Contract.FieldCheck> Checks = new();
    private static readonly ConcurrentDictionary<MessageDescriptor, (FieldDescriptor Field, FieldDescriptor Low)[]> Orders = new();
    private static readonly ConcurrentDictionary<MessageDescriptor, FieldDescriptor[]> Ordered = new();
    private readonly List<Violation> _violations = [];
    private readonly List<(string Path, string List, string Id)> _references = [];
    private readonly Dictionary<string, HashSet<string>> _ids = [];

    /// <summary>What is wrong so far.</summary>
    public IReadOnlyList<Violation> Violations => _violations;

    /// <summary>True for a message that is gone through field by field: neither a quantity nor an instant.</summary>
    public static bool HasFields(object value, [NotNullWhen(true)] out IMessage? message)
    {
        message = value is IMessage one and not Timestamp && !QuantityMap.IsQuantity(one.Descriptor) ? one : null;
        return message is not null;
    }

    /// <summary>The least value of a quantity, in the unit that the contract lists first: no less than nothing, and no colder than absolute zero.</summary>
    public static double LeastOf(Contract.FieldCheck check, MessageDescriptor quantity) =>
        check.HasAtLeast ? check.AtLeast : quantity == Contract.Temperature.Descriptor ? Temperature.FromKelvins(0).DegreesCelsius : 0;

    /// <summary>Checks a whole message that stands for itself.</summary>
    /// <returns>What is wrong; empty where the message can be used.</returns>
    public static IReadOnlyList<Violation> Check(IMessage message)
    {
        var checker = new FieldChecker();
        checker.CheckFields(message, null);
        checker.CheckReferences();
        return checker.Violations;
    }

    /// <summary>The value of a single field; null where it is not given, which is a violation where it must be.</summary>
    public object? Given(IMessage message, FieldDescriptor field, PathStep step)
    {
        var value = field.Accessor.GetValue(message);
        if (field.HasPresence ? field.Accessor.HasValue(message) : !IsDefault(value))
        {
            return value;
        }

        if (CheckOf(field).Required)
        {
            Violate(step, "nothing", field.FieldType == FieldType.Enum ? EnumNames.Allowed(field.EnumType) : "a value", $"give {field.Name}");
        }

        return null;
    }

    /// <summary>The entries of a list, each with its way; the list's own checks are made.</summary>
    public IReadOnlyList<(object Entry, PathStep Step)> Entries(IMessage message, FieldDescriptor field, PathStep? where)
    {
        var source = (IList)field.Accessor.GetValue(message);
        var step = new PathStep(where, field.Name, null);
        var check = CheckOf(field);
        if (check.HasMaxItems && source.Count > check.MaxItems)
        {
            Violate(step, $"{source.Count} entries", $"at most {check.MaxItems}", "split it into several");
        }

        if (check.Required && source.Count == 0)
        {
            Violate(step, "nothing", "at least one entry", $"give {field.Name}");
        }

        if (field.FieldType == FieldType.Enum && source.Count > 1 && source.Cast<object>().Any(one => IsNone(field.EnumType, one)))
        {
            Violate(step, "none beside others", "none alone, or the others without it", "say which");
        }

        var ids = new HashSet<string>(StringComparer.Ordinal);
        var entries = new List<(object, PathStep)>(source.Count);
        for (var i = 0; i < source.Count; i++)
        {
            var id = source[i] is IMessage entry ? IdOf(entry) : null;
            var here = new PathStep(where, field.Name, id ?? i.ToString(CultureInfo.InvariantCulture), i);
            if (id is not null && !ids.Add(id))
            {
                Violate(here, $"the id `{id}` a second time", "an id that no other entry of the list has", "give each entry an id of its own");
            }

            entries.Add((source[i]!, here));
        }

        CheckOrder(entries);
        // Only the message's own lists are referred to.
        if (where is null)
        {
            _ids[field.Name] = ids;
        }

        return entries;
    }

    /// <summary>A value as the records have it (a quantity, a date, an instant; an enum as its number); null where it cannot be.</summary>
    public object? Value(object value, FieldDescriptor field, PathStep step) => value switch
    {
        Timestamp at => Instant(at, step),
        IMessage message => QuantityOf(message, field, step),
        string text => Text(text, field, step),
        double or int or long => NumberOf(value, field, step),
        System.Enum number => EnumOf(System.Convert.ToInt32(number, CultureInfo.InvariantCulture), field, step),
        _ => value,
    };

    /// <summary>Every choice of a message must be made.</summary>
    public void CheckChoices(IMessage message, PathStep? where)
    {
        foreach (var oneof in message.Descriptor.Oneofs.Where(oneof => !oneof.IsSynthetic && oneof.Accessor.GetCaseFieldDescriptor(message) is null))
        {
            var choices = string.Join(", ", oneof.Fields.Select(field => field.Name));
            _violations.Add(new Violation(where?.ByIndex() ?? "", $"none of {choices}", $"one of {choices}", "say which"));
        }
    }

    /// <summary>No field may lie below, or come before, the one of the same message that the contract names.</summary>
    public void CheckOrder(IMessage message, PathStep? where)
    {
        foreach (var (field, low) in Orders.GetOrAdd(message.Descriptor, OrdersOf))
        {
            if (OrderOf(message, field) is { } value && OrderOf(message, low) is { } least && value.Value < least.Value)
            {
                Violate(
                    new PathStep(where, field.Name, null), Said.Name(value.Shown),
                    field.FieldType == FieldType.String || field.MessageType == Timestamp.Descriptor ? (Said)$"not before {low.Name}, which is {least.Shown}" : $"not below {low.Name}, which is {least.Shown}",
                    "check both values");
            }
        }
    }

    // What lies on another thing comes after it.
    private void CheckOrder(List<(object Entry, PathStep Step)> entries)
    {
        foreach (var field in entries is [(IMessage first, _), _, ..] ? Ordered.GetOrAdd(first.Descriptor, OrderedOf) : [])
        {
            (double Value, string Shown)? most = null;
            foreach (var (entry, step) in entries)
            {
                var value = OrderOf((IMessage)entry, field);
                if (value is { } one && most is { } before && one.Value < before.Value)
                {
                    Violate(new PathStep(step, field.Name, null), Said.Name(one.Shown), $"not below {before.Shown}, which an entry before it has", "check both values");
                }
                else
                {
                    most = value ?? most;
                }
            }
        }
    }

    /// <summary>Every name of another entry must be the id of one; called when all fields have been seen.</summary>
    public void CheckReferences()
    {
        foreach (var (path, list, id) in _references)
        {
            if (!_ids[list].Contains(id))
            {
                Said known = _ids[list].Count == 0 ? (Said)$"the id of an entry of {list}, which is empty" : $"the id of an entry of {list}: {string.Join(", ", _ids[list].Order(StringComparer.Ordinal).Take(12))}";
                _violations.Add(new Violation(path, $"`{id}`", known, $"add the entry to {list}, or name one that is there"));
            }
        }
    }

    private void CheckFields(IMessage message, PathStep? where)
    {
        foreach (var field in message.Descriptor.Fields.InDeclarationOrder())
        {
            if (field.IsRepeated)
            {
                foreach (var (entry, step) in Entries(message, field, where))
                {
                    CheckValue(entry, field, step);
                }
            }
            else
            {
                var step = new PathStep(where, field.Name, null);
                if (Given(message, field, step) is { } value)
                {
                    CheckValue(value, field, step);
                }
            }
        }

        CheckChoices(message, where);
        CheckOrder(message, where);
    }

    private void CheckValue(object value, FieldDescriptor field, PathStep step)
    {
        if (value is Contract.Plan)
        {
            // A plan within a request stands for itself, with ids of its own: the plan reader checks it.
            return;
        }

        if (HasFields(value, out var message))
        {
            CheckFields(message, step);
        }
        else
        {
            Value(value, field, step);
        }
    }

    private static bool IsNone(EnumDescriptor type, object value) =>
        type.FindValueByNumber(System.Convert.ToInt32(value, CultureInfo.InvariantCulture))?.Name.EndsWith("_NONE", StringComparison.Ordinal) == true;

    // Strings and enums have no presence of their own in the contract: empty and zero are "not given".
    private static bool IsDefault(object value) => value switch
    {
        string text => text.Length == 0,
        System.Enum number => System.Convert.ToInt32(number, CultureInfo.InvariantCulture) == 0,
        _ => false,
    };

    private DateTimeOffset? Instant(Timestamp at, PathStep step)
    {
        try
        {
            return at.ToDateTimeOffset();
        }
        catch (Exception error) when (error is InvalidOperationException or ArgumentException or OverflowException)
        {
            Violate(step, "an instant outside the calendar", "years 1 to 9999, nanoseconds 0 to 999999999", "give a real date and time");
            return null;
        }
    }

    private IQuantity? QuantityOf(IMessage message, FieldDescriptor field, PathStep step)
    {
        var first = QuantityMap.FirstUnit(message.Descriptor);
        if (message.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message) is not { } unit)
        {
            Violate(step, "a quantity without a value", $"one of {string.Join(", ", message.Descriptor.Fields.InDeclarationOrder().Select(f => f.Name))}", "give a value under the name of its unit, or leave the field out");
            return null;
        }

        var value = (double)unit.Accessor.GetValue(message);
        var inUnit = new PathStep(step, unit.Name, null);
        if (!IsOrdinary(value))
        {
            Violate(inUnit, Said.Name(Shown(value)), "a finite number of ordinary size", "give the value itself, or leave the field out where it is not known");
            return null;
        }

        var quantity = QuantityMap.From(value, unit);
        var check = CheckOf(field);
        var least = LeastOf(check, message.Descriptor);
        // One part in a thousand million: rounding in a change of unit is no violation.
        var inFirst = QuantityMap.In(quantity, first);
        if (inFirst < least - (1e-9 * Math.Abs(least)))
        {
            Violate(inUnit, Said.Name(Shown(value)), $"at least {Shown(least)} {Words(first)}", "check the sign and the unit");
            return null;
        }

        if (check.HasAtMost && inFirst > check.AtMost * (1 + 1e-9))
        {
            Violate(inUnit, Said.Name(Shown(value)), $"at most {Shown(check.AtMost)} {Words(first)}", "check the value and the unit");
            return null;
        }

        return quantity;
    }

    private object? Text(string text, FieldDescriptor field, PathStep step)
    {
        var check = CheckOf(field);
        var most = check.HasMaxCharacters ? check.MaxCharacters : MostCharacters;
        if (text.Length > most)
        {
            Violate(step, $"{text.Length} characters", $"at most {most} characters", "shorten the text");
            return null;
        }

        if (HiddenCharacters.FirstOf(text) is { } hidden)
        {
            Violate(step, $"the hidden character U+{(int)hidden:X4}", "characters that show, spaces, tabs and line breaks", "take it out, or write the text anew");
            return null;
        }

        if (check.NamesOneOf.Length > 0)
        {
            _references.Add((step.ByIndex(), check.NamesOneOf, text));
        }

        switch (check.Format)
        {
            case Contract.TextFormat.Date:
                if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
                {
                    return date;
                }

                Violate(step, $"`{text}`", "a calendar date", "write it like 2026-04-14");
                return null;
            case Contract.TextFormat.TimeOfDay:
                return Accept(TimeOnly.TryParseExact(text, "HH:mm", CultureInfo.InvariantCulture, DateTimeStyles.None, out _), text, step, "a time of day, 24 hours", "write it like 07:00");
            case Contract.TextFormat.TimeZone:
                return Accept(TimeZoneInfo.TryFindSystemTimeZoneById(text, out _), text, step, "an IANA time zone", "write it like America/Chicago");
            case Contract.TextFormat.Id:
                return Accept(text.Length <= 60 && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_'), text, step,
                    "letters, digits, point, hyphen and underscore, at most 60", "shorten or rename it");
            case Contract.TextFormat.Country:
                return Accept(text.Length == 2 && text.All(char.IsAsciiLetterUpper), text, step, "two capital letters by ISO 3166-1", "write it like US");
            case Contract.TextFormat.Region:
                return Accept(text.Length is >= 4 and <= 6 && text[2] == '-' && text.All(c => char.IsAsciiLetterUpper(c) || char.IsAsciiDigit(c) || c == '-'), text, step,
                    "a region by ISO 3166-2", "write it like US-MN");
            default:
                return text;
        }
    }

    private string? Accept(bool good, string text, PathStep step, Said allowed, Said remedy)
    {
        if (good)
        {
            return text;
        }

        Violate(step, $"`{(text.Length <= 60 ? text : text[..60] + "…")}`", allowed, remedy);
        return null;
    }

    private object? NumberOf(object value, FieldDescriptor field, PathStep step)
    {
        var number = System.Convert.ToDouble(value, CultureInfo.InvariantCulture);
        if (!IsOrdinary(number))
        {
            Violate(step, Said.Name(Shown(number)), "a finite number of ordinary size", "give the value itself, or leave the field out where it is not known");
            return null;
        }

        var check = CheckOf(field);
        if (check.HasAtLeast && number < check.AtLeast)
        {
            Violate(step, Said.Name(Shown(number)), $"at least {Shown(check.AtLeast)}", "check the value");
            return null;
        }

        if (check.HasAtMost && number > check.AtMost)
        {
            Violate(step, Said.Name(Shown(number)), $"at most {Shown(check.AtMost)}", "check the value");
            return null;
        }

        return value;
    }

    private int? EnumOf(int number, FieldDescriptor field, PathStep step)
    {
        if (number != 0 && field.EnumType.FindValueByNumber(number) is not null)
        {
            return number;
        }

        Violate(step, $"the unknown number {number}", EnumNames.Allowed(field.EnumType), "use one of these names");
        return null;
    }

    private void Violate(PathStep step, Said found, Said allowed, Said remedy) =>
        _violations.Add(new Violation(step.ByIndex(), found, allowed, remedy));

    /// <summary>What a field must satisfy.</summary>
    public static Contract.FieldCheck CheckOf(FieldDescriptor field) =>
        Checks.GetOrAdd(field, static field => Bounded(field.GetOptions()?.GetExtension(Contract.ChecksExtensions.Check) ?? new Contract.FieldCheck()));

    // What the field says itself goes before what its bound says.
    private static Contract.FieldCheck Bounded(Contract.FieldCheck check)
    {
        var bound = Contract.ChecksReflection.Descriptor.EnumTypes.Single(type => type.ClrType == typeof(Contract.Bound)).FindValueByNumber((int)check.Bound);
        var whole = bound.GetOptions()?.GetExtension(Contract.ChecksExtensions.Within)?.Clone() ?? new Contract.FieldCheck();
        whole.MergeFrom(check);
        return whole;
    }

    private static (FieldDescriptor Field, FieldDescriptor Low)[] OrdersOf(MessageDescriptor type) =>
        [.. from field in type.Fields.InDeclarationOrder() where CheckOf(field).NotBelow.Length > 0 select (field, type.FindFieldByName(CheckOf(field).NotBelow))];

    private static FieldDescriptor[] OrderedOf(MessageDescriptor type) => [.. type.Fields.InDeclarationOrder().Where(field => CheckOf(field).InOrder)];

    // A value as a number that can be compared with others of its field's kind; null where it is not given, or is no value at all.
    private static (double Value, string Shown)? OrderOf(IMessage message, FieldDescriptor field) => field.Accessor.GetValue(message) switch
    {
        string text when DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date) => (date.DayNumber, text),
        Timestamp { Nanos: >= 0 and <= 999_999_999 } at => (at.Seconds + (at.Nanos * 1e-9), $"{at}".Trim('"')),
        IMessage quantity when QuantityMap.IsQuantity(quantity.Descriptor) && quantity.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(quantity) is { } unit
            && (double)unit.Accessor.GetValue(quantity) is var number && IsOrdinary(number) =>
            // Rounding in a change of unit is no difference.
            (Math.Round(QuantityMap.In(QuantityMap.From(number, unit), QuantityMap.FirstUnit(quantity.Descriptor)), 6), $"{Shown(number)} {unit.Name.Replace('_', ' ')}"),
        int number when field.Accessor.HasValue(message) => (number, Shown(number)),
        _ => null,
    };

    private static bool IsOrdinary(double value) => double.IsFinite(value) && Math.Abs(value) <= MostOfAnything && (value == 0 || Math.Abs(value) >= LeastButNothing);

    private static string? IdOf(IMessage entry) =>
        entry.Descriptor.FindFieldByName("id") is { FieldType: FieldType.String } field && (string)field.Accessor.GetValue(entry) is { Length: > 0 } id ? id : null;

    private static string Shown(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    // A unit has a word in each language.
    private static Said Words(FieldDescriptor unit) => unit.Name.Replace('_', ' ');
}
