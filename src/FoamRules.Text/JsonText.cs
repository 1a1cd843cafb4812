using System.Text;
using System.Text.Json;
using FoamRules.Model;

namespace FoamRules.Text;

/// <summary>Reads JSON into a tree that knows its lines.</summary>
internal static class JsonText
{
    public static DataText Read(string text, string? file)
    {
        var bytes = Encoding.UTF8.GetBytes(text);
        var lines = LineStarts(bytes);
        var violations = new List<Violation>();
        var reader = new Utf8JsonReader(bytes, new JsonReaderOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true, MaxDepth = DataText.MaxDepth });
        try
        {
            reader.Read();
            var root = Node(ref reader, lines, file, violations);
            while (reader.Read())
            {
            }

            return new DataText(violations.Count == 0 ? root : null, violations);
        }
        catch (InvalidOperationException)
        {
            return DataText.Failed("a character that is not valid Unicode", "text in UTF-8", "mend the text", 1, 1, file);
        }
        catch (JsonException error)
        {
            return DataText.Failed(Said.Name(Plain(error)), "well-formed JSON", "mend the text at this place",
                (int)(error.LineNumber ?? 0) + 1, (int)(error.BytePositionInLine ?? 0) + 1, file);
        }
    }

    private static DataNode Node(ref Utf8JsonReader reader, List<int> lines, string? file, List<Violation> violations)
    {
        var (line, column) = Place(lines, (int)reader.TokenStartIndex);
        switch (reader.TokenType)
        {
            case JsonTokenType.StartObject:
                var entries = new List<MapEntry>();
                var names = new HashSet<string>(StringComparer.Ordinal);
                while (reader.Read() && reader.TokenType != JsonTokenType.EndObject)
                {
                    var (nameLine, nameColumn) = Place(lines, (int)reader.TokenStartIndex);
                    var name = reader.GetString()!;
                    reader.Read();
                    var value = Node(ref reader, lines, file, violations);
                    if (names.Add(name))
                    {
                        entries.Add(new MapEntry(name, value, nameLine, nameColumn));
                    }
                    else
                    {
                        violations.Add(new Violation(name, "a second value under this name", "one value", "keep one of them", nameLine, nameColumn, file));
                    }
                }

                return new MapNode(entries, line, column);
            case JsonTokenType.StartArray:
                var items = new List<DataNode>();
                while (reader.Read() && reader.TokenType != JsonTokenType.EndArray)
                {
                    items.Add(Node(ref reader, lines, file, violations));
                }

                return new ListNode(items, line, column);
            case JsonTokenType.String:
                return new ScalarNode(reader.GetString(), true, line, column);
            case JsonTokenType.Null:
                return new ScalarNode(null, false, line, column);
            default:
                return new ScalarNode(Encoding.UTF8.GetString(reader.ValueSpan), false, line, column);
        }
    }

    private static List<int> LineStarts(byte[] bytes)
    {
        var starts = new List<int> { 0 };
        for (var i = 0; i < bytes.Length; i++)
        {
            if (bytes[i] == (byte)'\n')
            {
                starts.Add(i + 1);
            }
        }

        return starts;
    }

    private static (int Line, int Column) Place(List<int> lines, int position)
    {
        var found = lines.BinarySearch(position);
        var line = found >= 0 ? found : ~found - 1;
        return (line + 1, position - lines[line] + 1);
    }

    // The library's messages end with the place, which stands beside them already.
    private static string Plain(JsonException error)
    {
        var cut = error.Message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        return (cut < 0 ? error.Message : error.Message[..cut]).TrimEnd('.');
    }
}
