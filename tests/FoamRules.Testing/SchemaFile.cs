using FoamRules.Text;
using NJsonSchema;

namespace FoamRules.Testing;

/// <summary>A JSON Schema of docs/schemas, read and applied by a library that knows nothing of how it was made.</summary>
public sealed class SchemaFile
{
    private readonly JsonSchema _schema;

    private SchemaFile(JsonSchema schema) => _schema = schema;

    /// <summary>Where a schema stands.</summary>
    public static string PathOf(string name) => Repository.PathOf("docs", "schemas", $"{name}.schema.json");

    /// <summary>Reads a schema.</summary>
    public static SchemaFile Read(string name) => ReadFile(PathOf(name));

    /// <summary>Reads a schema that others published.</summary>
    public static SchemaFile ReadFile(string path) => new(JsonSchema.FromJsonAsync(File.ReadAllText(path)).GetAwaiter().GetResult());

    /// <summary>What a JSON text breaks; empty where it fits.</summary>
    public IReadOnlyList<string> Check(string json) => [.. _schema.Validate(json).Select(error => $"{error.Path}: {error.Kind}")];

    /// <summary>What a YAML text breaks; empty where it fits.</summary>
    public IReadOnlyList<string> CheckYaml(string yaml, string file) =>
        DataText.Read(yaml, file).Root is { } root ? Check(TreeEdit.ToJson(root)!.ToJsonString()) : throw new InvalidOperationException($"{file} is no YAML");
}
