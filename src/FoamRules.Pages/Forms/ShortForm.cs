using System.Collections.Immutable;
using FoamRules.Exchange.Editing;
using FoamRules.Text;

namespace FoamRules.Pages.Forms;

/// <summary>A short form: the fields of a plan that one kind of work cannot do without, in sections.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Kind">The part by which its piece of work is what it is, though nothing of it may be known.</param>
/// <param name="Fixed">What every plan of this form says, by path.</param>
/// <param name="Sections">Its sections, each with its fields.</param>
/// <param name="MayBeNone">The lists of which it can be said that they have no entries.</param>
/// <param name="Besides">What a row says besides, once something of it is filled in.</param>
public sealed record ShortForm(string Name, string Kind, ImmutableArray<(string Path, string Value)> Fixed, ImmutableArray<(string Name, ImmutableArray<PlanField> Fields)> Sections,
    ImmutableArray<string> MayBeNone, ImmutableArray<(string Path, string Value)> Besides)
{
    /// <summary>The field by whose clock times are typed.</summary>
    public const string TimeZone = "time_zone";

    private const string File = "forms.yaml";
    private const string UnitsKey = "units";
    private const string UsualKey = "usual";

    private static readonly Lazy<(ImmutableArray<ShortForm> Forms, ImmutableDictionary<string, ImmutableArray<(string Name, string Sign)>> Units, ImmutableDictionary<string, string> Usual)> Read = new(() =>
    {
        var root = (MapNode)DataText.Read(Resources.Text("forms", File), File).Root!;
        return (
            [.. root.Entries.Where(entry => entry.Name is not (UnitsKey or UsualKey)).Select(entry => Of(entry.Name, (MapNode)entry.Value))],
            ((MapNode)root[UnitsKey]!).Entries.ToImmutableDictionary(entry => entry.Name, entry => Pairs(entry.Value)),
            Pairs(root[UsualKey]!).ToImmutableDictionary(pair => pair.Name, pair => pair.Text));
    });

    /// <summary>The forms.</summary>
    public static ImmutableArray<ShortForm> All => Read.Value.Forms;

    /// <summary>All fields.</summary>
    public IEnumerable<PlanField> Fields => Sections.SelectMany(section => section.Fields);

    /// <summary>The units that a form offers for a quantity, with their signs.</summary>
    public static ImmutableArray<(string Name, string Sign)> Units(string quantity) => Read.Value.Units[quantity];

    /// <summary>The unit that a form shows first.</summary>
    public static string UsualUnit(PlanField field) => Read.Value.Usual.GetValueOrDefault(field.Path) ?? Units(field.Quantity)[0].Name;

    private static ShortForm Of(string name, MapNode form) => new(
        name,
        ((ScalarNode)form["kind"]!).Text!,
        Pairs(form["fixed"]!),
        [.. ((MapNode)form["sections"]!).Entries.Select(section => (section.Name, ((ListNode)section.Value).Items.Select(path => PlanField.At(((ScalarNode)path).Text!)).ToImmutableArray()))],
        form["none"] is ListNode none ? [.. none.Items.Select(list => ((ScalarNode)list).Text!)] : [],
        form["besides"] is { } besides ? Pairs(besides) : []);

    /// <summary>The list that may have no entries and of which this field is the first that is asked; null: none.</summary>
    public string? NoneBefore(PlanField field) =>
        MayBeNone.FirstOrDefault(list => Fields.First(one => one.Path.StartsWith(list + "[", StringComparison.Ordinal)) == field);

    private static ImmutableArray<(string Name, string Text)> Pairs(DataNode map) => [.. ((MapNode)map).Entries.Select(entry => (entry.Name, ((ScalarNode)entry.Value).Text!))];
}
