using System.Collections;
using System.Globalization;
using System.Security.Cryptography;
using FoamRules.Model;
using FoamRules.Text;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;
using UnitsNet;
using Contract = FoamRules.Contracts.V1;

namespace FoamRules.Exchange;

/// <summary>A plan as read: its facts, or everything that is wrong with it.</summary>
/// <param name="Plan">The facts; null where the plan cannot be read.</param>
/// <param name="Message">The plan as a message; null where the text cannot be read.</param>
/// <param name="Digest">SHA-256 of the message, in hexadecimal.</param>
/// <param name="Violations">What is wrong; empty where the plan can be read.</param>
public sealed record PlanRead(Plan? Plan, Contract.Plan? Message, string Digest, IReadOnlyList<Violation> Violations);

/// <summary>What a caller says of a plan besides the plan itself.</summary>
/// <param name="Now">Written into a plan that does not say when it is judged.</param>
/// <param name="Stage">Stands for the plan's own stage; null: the plan's own.</param>
public sealed record ReadOptions(DateTimeOffset Now, Stage? Stage = null);

/// <summary>
/// Reads plans, from YAML and JSON texts and from messages. Every value is checked against what the contract allows, and
/// everything that is wrong is named at once by the field's path.
/// </summary>
public sealed class PlanReader
{
    private readonly List<Violation> _violations = [];
    private readonly List<(string Path, string List, string Id)> _references = [];
    private readonly Dictionary<string, HashSet<string>> _ids = [];

    private PlanReader()
    {
    }

    /// <summary>Reads a YAML or JSON text.</summary>
    /// <param name="text">The text.</param>
    /// <param name="file">The file's name, for messages; null where there is none.</param>
    /// <param name="options">What the caller says besides.</param>
    public static PlanRead ReadText(string text, string? file, ReadOptions options)
    {
        var data = DataText.Read(text, file);
        if (data.Root is null)
        {
            return new PlanRead(null, null, "", data.Violations);
        }

        var message = new Contract.Plan();
        var unreadable = MessageReader.Read(data.Root, message, file);
        var read = ReadMessage(message, options);
        var lines = new LineFinder(data.Root);
        var impossible = read.Violations.Select(violation => lines.Place(violation) with { File = file });
        // A field that could not be read comes out as missing or empty too; saying it once is enough.
        var real = impossible.Where(violation => !unreadable.Any(known => known.Path == violation.Path || known.Path.StartsWith(violation.Path + ".", StringComparison.Ordinal)));
        IReadOnlyList<Violation> all = [.. unreadable.Concat(real).OrderBy(violation => violation.Line).ThenBy(violation => violation.Column)];
        return all.Count == 0 ? read : new PlanRead(null, message, "", all);
    }

    /// <summary>Reads a message.</summary>
    /// <param name="message">The message; it is left as it is.</param>
    /// <param name="options">What the caller says besides.</param>
    public static PlanRead ReadMessage(Contract.Plan message, ReadOptions options)
    {
        message = message.Clone();
        message.JudgedAt ??= Timestamp.FromDateTimeOffset(options.Now);
        if (options.Stage is { } stage)
        {
            message.Stage = (Contract.Stage)stage;
        }

        var reader = new PlanReader();
        var plan = (Plan)reader.Record(message, typeof(Plan), null);
        reader.CheckReferences();
        var digest = System.Convert.ToHexStringLower(SHA256.HashData(message.ToByteArray()));
        return new PlanRead(reader._violations.Count == 0 ? plan : null, message, digest, reader._violations);
    }

    private object Record(IMessage message, System.Type type, PathStep? where)
    {
        var shape = RecordShape.Of(message.Descriptor, type);
        var record = Activator.CreateInstance(type)!;
        foreach (var member in shape.Members)
        {
            var step = new PathStep(where, member.Field.Name, null);
            if (member.Field.IsRepeated)
            {
                member.Set(record, List(message, member, where));
            }
            else if (Single(message, member, step) is { } value)
            {
                member.Set(record, value);
            }
        }

        foreach (var oneof in message.Descriptor.Oneofs.Where(oneof => !oneof.IsSynthetic && oneof.Accessor.GetCaseFieldDescriptor(message) is null))
        {
            var choices = string.Join(" or ", oneof.Fields.Select(field => field.Name));
            _violations.Add(new Violation(where?.ByIndex() ?? "", "neither " + choices.Replace(" or ", " nor ", StringComparison.Ordinal), choices, "say which"));
        }

        if (where is not null)
        {
            NodePlace.Set(record, where);
        }

        return record;
    }

    private object List(IMessage message, RecordShape.Member member, PathStep? where)
    {
        var source = (IList)member.Field.Accessor.GetValue(message);
        var step = new PathStep(where, member.Field.Name, null);
        if (member.Check.HasMaxItems && source.Count > member.Check.MaxItems)
        {
            Violate(step, $"{source.Count} entries", $"at most {member.Check.MaxItems}", "split the plan");
        }

        if (member.Check.Required && source.Count == 0)
        {
            Violate(step, "nothing", "at least one entry", $"give {member.Field.Name}");
        }

        var ids = new HashSet<string>(StringComparer.Ordinal);
        var builder = ListBuilder.For(member.Type, source.Count);
        for (var i = 0; i < source.Count; i++)
        {
            var id = source[i] is IMessage entry ? IdOf(entry) : null;
            var here = new PathStep(where, member.Field.Name, id ?? i.ToString(CultureInfo.InvariantCulture), i);
            if (id is not null && !ids.Add(id))
            {
                Violate(here, $"the id `{id}` a second time", "an id that no other entry of the list has", "give each entry an id of its own");
            }

            if (Convert(source[i]!, member, here) is { } value)
            {
                builder.Add(value);
            }
        }

        // Only the plan's own lists are referred to.
        if (where is null)
        {
            _ids[member.Field.Name] = ids;
        }

        return builder.ToImmutableArray();
    }

    private object? Single(IMessage message, RecordShape.Member member, PathStep step)
    {
        var field = member.Field;
        var given = field.HasPresence ? field.Accessor.HasValue(message) : !IsDefault(field.Accessor.GetValue(message));
        if (given)
        {
            return Convert(field.Accessor.GetValue(message), member, step);
        }

        if (member.Check.Required)
        {
            Violate(step, "nothing", field.FieldType == FieldType.Enum ? EnumNames.Allowed(field.EnumType) : "a value", $"give {field.Name}");
        }

        return null;
    }

    // Strings and enums have no presence of their own in the contract: empty and zero are "not given".
    private static bool IsDefault(object value) => value switch
    {
        string text => text.Length == 0,
        System.Enum number => System.Convert.ToInt32(number, CultureInfo.InvariantCulture) == 0,
        _ => false,
    };

    private object? Convert(object value, RecordShape.Member member, PathStep step)
    {
        switch (value)
        {
            case Timestamp at:
                return Instant(at, step);
            case IMessage message when QuantityMap.IsQuantity(message.Descriptor):
                return QuantityOf(message, member, step);
            case IMessage message:
                return Record(message, member.Type, step);
            case string text:
                return Text(text, member, step);
            case double or int or long:
                return NumberOf(value, member, step);
            case System.Enum number:
                return EnumOf(System.Convert.ToInt32(number, CultureInfo.InvariantCulture), member, step);
            default:
                return value;
        }
    }

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

    private IQuantity? QuantityOf(IMessage message, RecordShape.Member member, PathStep step)
    {
        var first = QuantityMap.FirstUnit(message.Descriptor);
        if (message.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(message) is not { } field)
        {
            Violate(step, "a quantity without a value", $"one of {string.Join(", ", message.Descriptor.Fields.InDeclarationOrder().Select(f => f.Name))}", "give a value under the name of its unit, or leave the field out");
            return null;
        }

        var value = (double)field.Accessor.GetValue(message);
        var inUnit = new PathStep(step, field.Name, null);
        if (!double.IsFinite(value) || Math.Abs(value) > 1e12)
        {
            Violate(inUnit, Shown(value), "a finite number of ordinary size", "give the value itself, or leave the field out where it is not known");
            return null;
        }

        var quantity = QuantityMap.From(value, field);
        var least = member.Check.HasAtLeast ? member.Check.AtLeast : quantity is Temperature ? Temperature.FromKelvins(0).DegreesCelsius : 0;
        // One part in a thousand million: rounding in a change of unit is no violation.
        var inFirst = QuantityMap.In(quantity, first);
        if (inFirst < least - (1e-9 * Math.Abs(least)))
        {
            Violate(inUnit, Shown(value), $"at least {Shown(least)} {Words(first)}", "check the sign and the unit");
            return null;
        }

        if (member.Check.HasAtMost && inFirst > member.Check.AtMost * (1 + 1e-9))
        {
            Violate(inUnit, Shown(value), $"at most {Shown(member.Check.AtMost)} {Words(first)}", "check the value and the unit");
            return null;
        }

        return quantity;
    }

    private object? Text(string text, RecordShape.Member member, PathStep step)
    {
        if (text.Length > 2000)
        {
            Violate(step, $"{text.Length} characters", "at most 2000 characters", "shorten the text");
            return null;
        }

        if (member.Check.NamesOneOf.Length > 0)
        {
            _references.Add((step.ByIndex(), member.Check.NamesOneOf, text));
        }

        switch (member.Check.Format)
        {
            case Contract.TextFormat.Date:
                if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
                {
                    return date;
                }

                Violate(step, $"`{text}`", "a calendar date", "write it like 2026-04-14");
                return null;
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

    private string? Accept(bool good, string text, PathStep step, string allowed, string remedy)
    {
        if (good)
        {
            return text;
        }

        Violate(step, $"`{(text.Length <= 60 ? text : text[..60] + "…")}`", allowed, remedy);
        return null;
    }

    private object? NumberOf(object value, RecordShape.Member member, PathStep step)
    {
        var number = System.Convert.ToDouble(value, CultureInfo.InvariantCulture);
        if (!double.IsFinite(number))
        {
            Violate(step, Shown(number), "a finite number", "give the value itself, or leave the field out where it is not known");
            return null;
        }

        if (member.Check.HasAtLeast && number < member.Check.AtLeast)
        {
            Violate(step, Shown(number), $"at least {Shown(member.Check.AtLeast)}", "check the value");
            return null;
        }

        if (member.Check.HasAtMost && number > member.Check.AtMost)
        {
            Violate(step, Shown(number), $"at most {Shown(member.Check.AtMost)}", "check the value");
            return null;
        }

        return value;
    }

    private object? EnumOf(int number, RecordShape.Member member, PathStep step)
    {
        if (System.Enum.IsDefined(member.Type, number))
        {
            return System.Enum.ToObject(member.Type, number);
        }

        Violate(step, $"the unknown number {number}", EnumNames.Allowed(member.Field.EnumType), "use one of these names");
        return null;
    }

    private void CheckReferences()
    {
        foreach (var (path, list, id) in _references)
        {
            if (!_ids[list].Contains(id))
            {
                var known = _ids[list].Count == 0 ? $"the id of an entry of {list}, which is empty" : $"the id of an entry of {list}: {string.Join(", ", _ids[list].Order(StringComparer.Ordinal).Take(12))}";
                _violations.Add(new Violation(path, $"`{id}`", known, $"add the entry to {list}, or name one that is there"));
            }
        }
    }

    private void Violate(PathStep step, string found, string allowed, string remedy) =>
        _violations.Add(new Violation(step.ByIndex(), found, allowed, remedy));

    private static string? IdOf(IMessage entry) =>
        entry.Descriptor.FindFieldByName("id") is { FieldType: FieldType.String } field && (string)field.Accessor.GetValue(entry) is { Length: > 0 } id ? id : null;

    private static string Shown(double value) => value.ToString("R", CultureInfo.InvariantCulture);

    private static string Words(FieldDescriptor unit) => unit.Name.Replace('_', ' ');
}
