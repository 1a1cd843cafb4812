using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Pages.Site;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Pages.Reviews.Facts;

/// <summary>How a fact is written into a form.</summary>
public enum FactKind
{
    /// <summary>A text.</summary>
    Text = 1,

    /// <summary>A day.</summary>
    Date,

    /// <summary>A time on the site's clock.</summary>
    Instant,

    /// <summary>A number, with a unit or without.</summary>
    Number,

    /// <summary>Several numbers of one unit.</summary>
    Numbers,

    /// <summary>Yes, no, or not known.</summary>
    YesNo,

    /// <summary>One of several names.</summary>
    Choice,

    /// <summary>Any of several names.</summary>
    Choices,

    /// <summary>A tick: the row counts.</summary>
    Tick,
}

/// <summary>One thing that a form asks: a field of the plan by its path, with indexes.</summary>
/// <param name="Path">The field's path, which is the name of the input.</param>
/// <param name="Kind">How it is written.</param>
/// <param name="Label">The key of its words.</param>
/// <param name="Value">What the form begins with; several are parted by spaces.</param>
public sealed record Fact(string Path, FactKind Kind, string Label, string Value)
{
    /// <summary>The contract's field; null for a tick.</summary>
    public FieldDescriptor? Field { get; init; }

    /// <summary>The unit's name in the contract; empty: none.</summary>
    public string Unit { get; init; } = "";

    /// <summary>What the label is about, where one form asks it of several; empty: nothing.</summary>
    public string Of { get; init; } = "";

    /// <summary>What the signed plan says of it, to look at and not to send.</summary>
    public string Planned { get; init; } = "";

    /// <summary>The names of which it is one, with their numbers in the contract.</summary>
    public ImmutableArray<(string Name, int Number)> Names { get; init; } = [];

    /// <summary>The id of its input.</summary>
    public string Id => IdOf(Path);

    /// <summary>The name of the input that carries its unit.</summary>
    public string UnitName => Path + ":unit";

    /// <summary>The id of an input by its name.</summary>
    public static string IdOf(string path) => "f-" + string.Concat(path.Select(letter => char.IsAsciiLetterOrDigit(letter) ? letter : '-'));

    /// <summary>A fact of a field.</summary>
    /// <param name="path">The path.</param>
    /// <param name="owner">The message that has the field, or would have it.</param>
    /// <param name="name">The field.</param>
    /// <param name="units">The units where the plan has none for it.</param>
    /// <param name="timeZone">The site's time zone.</param>
    /// <param name="label">The key of its words; null: by the path.</param>
    public static Fact At(string path, IMessage owner, string name, DisplayUnits units, string timeZone, string? label = null)
    {
        var field = owner.Descriptor.FindFieldByName(name) ?? throw new ArgumentException($"the contract has no field {path}", nameof(path));
        var value = !field.IsRepeated && field.HasPresence && !field.Accessor.HasValue(owner) ? null : field.Accessor.GetValue(owner);
        var fact = new Fact(path, KindOf(field), label ?? LabelOf(path), "") { Field = field };
        return fact.Kind switch
        {
            FactKind.Number or FactKind.Numbers when IsQuantity(field) => Quantity(fact, field, value, units),
            FactKind.Choice or FactKind.Choices => fact with { Names = NamesOf(field.EnumType), Value = Chosen(value, field) },
            FactKind.Instant => fact with { Value = value is Timestamp at ? Local(at.ToDateTimeOffset(), timeZone) : "" },
            FactKind.YesNo => fact with { Value = value is bool yes ? (yes ? "true" : "false") : "" },
            _ => fact with { Value = Convert.ToString(value, CultureInfo.InvariantCulture) ?? "" },
        };
    }

    /// <summary>The key of the words of a path: without indexes.</summary>
    public static string LabelOf(string path) => "fact-" + System.Text.RegularExpressions.Regex.Replace(path, @"\[\d+\]", "").Replace('.', '-').Replace('_', '-');

    /// <summary>The names of an enum's values, with their numbers.</summary>
    public static ImmutableArray<(string Name, int Number)> NamesOf(EnumDescriptor type)
    {
        var prefix = type.Values.Single(value => value.Number == 0).Name[..^"UNSPECIFIED".Length];
        return [.. type.Values.Where(value => value.Number != 0).Select(value => (value.Name[prefix.Length..].ToLowerInvariant().Replace('_', '-'), value.Number))];
    }

    /// <summary>A time as an input of a browser writes it, on the site's clock.</summary>
    public static string Local(DateTimeOffset at, string timeZone) => SiteTime.Show(at, timeZone.Length == 0 ? null : timeZone).Replace(' ', 'T');

    /// <summary>A number as a form shows it.</summary>
    public static string Show(double number) => Math.Round(number, 6).ToString("0.######", CultureInfo.InvariantCulture);

    /// <summary>True for a field that holds a number with a unit.</summary>
    public static bool IsQuantity(FieldDescriptor field) => field.FieldType == FieldType.Message && field.MessageType.File == QuantitiesReflection.Descriptor;

    private static FactKind KindOf(FieldDescriptor field) => field switch
    {
        { FieldType: FieldType.Enum } => field.IsRepeated ? FactKind.Choices : FactKind.Choice,
        { FieldType: FieldType.Bool } => FactKind.YesNo,
        { FieldType: FieldType.Double or FieldType.Int32 } => FactKind.Number,
        { FieldType: FieldType.String } => field.GetOptions()?.GetExtension(ChecksExtensions.Check)?.Format == TextFormat.Date ? FactKind.Date : FactKind.Text,
        { FieldType: FieldType.Message } when field.MessageType == Timestamp.Descriptor => FactKind.Instant,
        { FieldType: FieldType.Message } when IsQuantity(field) => field.IsRepeated ? FactKind.Numbers : FactKind.Number,
        _ => throw new ArgumentException($"{field.FullName} is no single field", nameof(field)),
    };

    // In the unit of the plan where it has a value, so that nothing is rounded on the way; else as the report shows it.
    private static Fact Quantity(Fact fact, FieldDescriptor field, object? value, DisplayUnits units)
    {
        var given = value switch
        {
            IMessage one => [one],
            System.Collections.IList many => many.Cast<IMessage>().ToList(),
            _ => [],
        };
        var unit = given.Select(UnitOf).FirstOrDefault()?.Name ?? UnitNames.Usual(field.MessageType.Name, units);
        // A list in several units cannot be shown in one: it is then typed anew.
        var same = given.All(one => UnitOf(one)?.Name == unit);
        return fact with { Unit = unit, Value = same ? string.Join(' ', given.Select(one => Show((double)UnitOf(one)!.Accessor.GetValue(one)))) : "" };
    }

    private static FieldDescriptor? UnitOf(IMessage quantity) => quantity.Descriptor.Oneofs[0].Accessor.GetCaseFieldDescriptor(quantity);

    private static string Chosen(object? value, FieldDescriptor field) => value switch
    {
        System.Collections.IList many => string.Join(' ', many.Cast<object>().Select(one => Convert.ToInt32(one, CultureInfo.InvariantCulture))),
        null => "",
        _ => Convert.ToInt32(value, CultureInfo.InvariantCulture) is var number and not 0 ? number.ToString(CultureInfo.InvariantCulture) : "",
    };
}
