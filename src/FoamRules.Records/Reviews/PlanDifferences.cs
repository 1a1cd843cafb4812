using System.Collections;
using System.Globalization;
using FoamRules.Contracts.V1;
using FoamRules.Exchange;
using Google.Protobuf;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Records.Reviews;

/// <summary>
/// Where two plans say different things, by the field's path. Entries that have an id are found by it, so their order changes
/// nothing. Two ways to write the same quantity count as different: what was signed is what was written.
/// </summary>
internal sealed class PlanDifferences
{
    // What is measured or brought along on the day, and what the service writes in: other values there are no other plan. Each is
    // judged anew by the requirements.
    private static readonly HashSet<string> OfTheDay =
    [
        "stage", "judged_at", "review", "people", "areas.readings", "areas.face_water", "products.lots",
        "gear.ratio_check", "gear.output", "gear.output_check", "gear.pressure_check", "gear.fluid_temperatures", "gear.mix_temperature", "gear.drum_care",
        "work.spray.passes_done", "work.cavity_fill.test_shots", "work.cavity_fill.steel_temperature",
    ];

    // Where a plan is revised, only what the service writes in is left out.
    private static readonly HashSet<string> OfTheService = ["stage", "judged_at", "review"];

    private const int MostCharacters = 300;
    private readonly List<PlanDifference> _found = [];
    private readonly HashSet<string> _leftOut;
    private readonly Model.DisplayUnits _units;

    private PlanDifferences(HashSet<string> leftOut, DisplayUnits units)
    {
        _leftOut = leftOut;
        _units = units == DisplayUnits.Us ? Model.DisplayUnits.Us : Model.DisplayUnits.Si;
    }

    /// <summary>All that differs.</summary>
    public static IReadOnlyList<PlanDifference> Between(Plan before, Plan after, DisplayUnits units) => Compare(OfTheService, before, after, units);

    /// <summary>What differs, the values of the day aside.</summary>
    public static IReadOnlyList<PlanDifference> BesidesTheDay(Plan before, Plan after, DisplayUnits units) => Compare(OfTheDay, before, after, units);

    private static List<PlanDifference> Compare(HashSet<string> leftOut, Plan before, Plan after, DisplayUnits units)
    {
        var differences = new PlanDifferences(leftOut, units);
        differences.Messages(before, after, "", "");
        return differences._found;
    }

    // `path` as in reports, with ids; `kind` the same without them.
    private void Messages(IMessage before, IMessage after, string path, string kind)
    {
        foreach (var field in before.Descriptor.Fields.InDeclarationOrder())
        {
            var ofKind = kind.Length == 0 ? field.Name : $"{kind}.{field.Name}";
            if (_leftOut.Contains(ofKind))
            {
                continue;
            }

            var here = path.Length == 0 ? field.Name : $"{path}.{field.Name}";
            if (field.IsRepeated)
            {
                Lists((IList)field.Accessor.GetValue(before), (IList)field.Accessor.GetValue(after), field, here, ofKind);
            }
            else
            {
                Values(Given(before, field), Given(after, field), field, here, ofKind);
            }
        }
    }

    private void Lists(IList before, IList after, FieldDescriptor field, string path, string kind)
    {
        var (was, now) = (ByKey(before, field), ByKey(after, field));
        foreach (var key in was.Keys.Union(now.Keys))
        {
            Values(was.GetValueOrDefault(key), now.GetValueOrDefault(key), field, $"{path}[{key}]", kind);
        }
    }

    private void Values(object? before, object? after, FieldDescriptor field, string path, string kind)
    {
        if (Equals(before, after))
        {
            return;
        }

        if (before is IMessage was && after is IMessage now && HasFields(was))
        {
            Messages(was, now, path, kind);
            return;
        }

        _found.Add(new PlanDifference { Path = path, Was = Text(before, field), Is = Text(after, field) });
    }

    private static Dictionary<string, object> ByKey(IList list, FieldDescriptor field)
    {
        var id = field.FieldType == FieldType.Message ? field.MessageType.FindFieldByName("id") : null;
        var entries = new Dictionary<string, object>(StringComparer.Ordinal);
        for (var i = 0; i < list.Count; i++)
        {
            var key = id is { FieldType: FieldType.String } && (string)id.Accessor.GetValue((IMessage)list[i]!) is { Length: > 0 } given ? given : i.ToString(CultureInfo.InvariantCulture);
            // Plans that are compared have been read, so no id stands twice.
            entries[key] = list[i]!;
        }

        return entries;
    }

    private static object? Given(IMessage message, FieldDescriptor field) =>
        !field.HasPresence || field.Accessor.HasValue(message) ? field.Accessor.GetValue(message) : null;

    private static bool HasFields(IMessage message) => message is not Timestamp && message.Descriptor.File != QuantitiesReflection.Descriptor;

    private string Text(object? value, FieldDescriptor field)
    {
        var text = value switch
        {
            null => "",
            Timestamp at => at.ToDateTimeOffset().ToString("yyyy-MM-dd HH:mm:ss'Z'", CultureInfo.InvariantCulture),
            _ => MessageText.Show(value, field, _units) ?? JsonFormatter.ToDiagnosticString((IMessage)value),
        };
        return text.Length <= MostCharacters ? text : text[..MostCharacters] + "…";
    }
}
