using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using FoamRules.Text;

namespace FoamRules.Testing;

/// <summary>A plan as a JSON tree whose fields can be set by path, such as <c>work[posts].cavity_fill.height</c>.</summary>
public static partial class TreeEdit
{
    /// <summary>A YAML or JSON tree as JSON. Plain words stay words; the plan reader decides what they are.</summary>
    public static JsonNode? ToJson(DataNode node) => node switch
    {
        MapNode map => new JsonObject(map.Entries.Select(entry => KeyValuePair.Create(entry.Name, ToJson(entry.Value)))),
        ListNode list => new JsonArray([.. list.Items.Select(ToJson)]),
        ScalarNode { Text: null } => null,
        ScalarNode { Quoted: false, Text: "true" or "false" } flag => JsonValue.Create(flag.Text == "true"),
        ScalarNode { Quoted: false, Text: { } text } when Number().IsMatch(text) => JsonNode.Parse(text),
        ScalarNode scalar => JsonValue.Create(scalar.Text),
        _ => throw new InvalidOperationException("an unknown kind of node"),
    };

    /// <summary>Sets a field; null takes it out. Mappings on the way are made where they are missing.</summary>
    public static void Set(JsonNode root, string path, JsonNode? value)
    {
        var node = root;
        var steps = path.Split('.').SelectMany(Split).ToList();
        for (var i = 0; i < steps.Count; i++)
        {
            var step = steps[i];
            var last = i == steps.Count - 1;
            if (node is JsonArray list)
            {
                var index = IndexOf(list, step, path);
                if (!last)
                {
                    node = list[index]!;
                }
                else if (value is null)
                {
                    list.RemoveAt(index);
                }
                else
                {
                    list[index] = value.DeepClone();
                }

                continue;
            }

            var map = (JsonObject)node;
            if (last)
            {
                map.Remove(step);
                if (value is not null)
                {
                    map[step] = value.DeepClone();
                }
            }
            else
            {
                node = map[step] ??= new JsonObject();
            }
        }
    }

    private static IEnumerable<string> Split(string step)
    {
        var bracket = step.IndexOf('[', StringComparison.Ordinal);
        return bracket < 0 ? [step] : [step[..bracket], step[(bracket + 1)..^1]];
    }

    private static int IndexOf(JsonArray list, string key, string path)
    {
        for (var i = 0; i < list.Count; i++)
        {
            if (list[i] is JsonObject entry && entry["id"]?.GetValueKind() == JsonValueKind.String && entry["id"]!.GetValue<string>() == key)
            {
                return i;
            }
        }

        return int.TryParse(key, out var index) && index < list.Count ? index : throw new InvalidOperationException($"{path}: no entry {key}");
    }

    // A number of JSON: RFC 8259, section 6.
    [GeneratedRegex(@"^-?(0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?\z")]
    private static partial Regex Number();
}
