using System.Text.RegularExpressions;
using Google.Protobuf.Reflection;

namespace FoamRules.Exchange.Schemas;

/// <summary>
/// The comments of the contract, by the full name of what they stand above. The compiled descriptors carry none, so they are read
/// from the proto files that this library carries.
/// </summary>
internal static partial class ContractComments
{
    private static readonly Lazy<Dictionary<string, string>> All = new(Read);

    /// <summary>What is said of a message, field, enum, enum value, service or method; empty where nothing is.</summary>
    public static string Of(IDescriptor descriptor) => All.Value.GetValueOrDefault(descriptor.FullName, "");

    private static Dictionary<string, string> Read()
    {
        var comments = new Dictionary<string, string>(StringComparer.Ordinal);
        var assembly = typeof(ContractComments).Assembly;
        foreach (var name in assembly.GetManifestResourceNames().Where(name => name.EndsWith(".proto", StringComparison.Ordinal)))
        {
            using var reader = new StreamReader(assembly.GetManifestResourceStream(name)!);
            Read(reader.ReadToEnd(), comments);
        }

        return comments;
    }

    private static void Read(string text, Dictionary<string, string> comments)
    {
        // The names of the blocks that are open; a oneof has none of its own.
        var open = new Stack<string>(["foamrules.v1"]);
        var above = new List<string>();
        foreach (var line in text.Split('\n').Select(line => line.Trim()))
        {
            if (line.StartsWith("//", StringComparison.Ordinal))
            {
                above.Add(line[2..].Trim());
                continue;
            }

            if (Block().Match(line) is { Success: true } block)
            {
                var name = block.Groups[1].Value is "message" or "enum" or "service" or "rpc" ? $"{open.Peek()}.{block.Groups[2].Value}" : open.Peek();
                comments.TryAdd(name, string.Join(' ', above));
                open.Push(name);
            }
            else if (Member().Match(line) is { Success: true } member)
            {
                comments[$"{open.Peek()}.{member.Groups[1].Value}"] = string.Join(' ', above);
            }

            if (line.EndsWith('}') && open.Count > 1)
            {
                open.Pop();
            }

            above.Clear();
        }
    }

    [GeneratedRegex(@"^(message|enum|oneof|service|extend|rpc) ([\w.]+)(?:\(.*\))? \{")]
    private static partial Regex Block();

    [GeneratedRegex(@"^(?:(?:repeated |optional )?[\w.]+ )?(\w+) = \d+")]
    private static partial Regex Member();
}
