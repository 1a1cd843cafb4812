using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace FoamRules.Text;

/// <summary>JSON for files that people read: indented, with every letter as it is.</summary>
public static class ReadableJson
{
    // Not for web pages: signs that would need another form there stand as they are.
    private static readonly JsonSerializerOptions Options = new() { WriteIndented = true, NewLine = "\n", Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <summary>The text of a tree, with a line end at its end.</summary>
    public static string Write(JsonNode node) => node.ToJsonString(Options) + "\n";
}
