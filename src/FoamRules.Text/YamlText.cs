using FoamRules.Model;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace FoamRules.Text;

/// <summary>Reads YAML into a tree that knows its lines.</summary>
internal static class YamlText
{
    public static DataText Read(string text, string? file)
    {
        var violations = new List<Violation>();
        var scanner = new Scanner(new StringReader(text), skipComments: true);
        try
        {
            var parser = new Parser(scanner);
            parser.Consume<StreamStart>();
            if (parser.Accept<StreamEnd>(out _))
            {
                return DataText.Failed("an empty text", "a mapping of field names to values", "write its fields into the file", 1, 1, file);
            }

            parser.Consume<DocumentStart>();
            var root = Node(parser, 0, file, violations);
            parser.Consume<DocumentEnd>();
            if (!parser.Accept<StreamEnd>(out var more))
            {
                violations.Add(new Violation("", "a second document", "one document", "put each plan into a file of its own", Line(parser.Current), Column(parser.Current), file));
            }

            return new DataText(violations.Count == 0 ? root : null, violations);
        }
        catch (YamlException error)
        {
            violations.Add(new Violation("", Said.Name(Plain(error)), "well-formed YAML", "mend the text at this place",
                (int)error.Start.Line, (int)error.Start.Column, file));
            return new DataText(null, violations);
        }
        catch (Exception error) when (error is InvalidOperationException or ArgumentException)
        {
            // How the library ends on some texts that are no YAML; it says no more than that.
            violations.Add(new Violation("", "what is no YAML", "well-formed YAML", "mend the text at this place", (int)scanner.CurrentPosition.Line, (int)scanner.CurrentPosition.Column, file));
            return new DataText(null, violations);
        }
    }

    private static DataNode Node(IParser parser, int depth, string? file, List<Violation> violations)
    {
        var at = parser.Current;
        if (depth > DataText.MaxDepth)
        {
            throw new YamlException(at!.Start, at.End, $"nested deeper than {DataText.MaxDepth} levels");
        }

        switch (at)
        {
            case Scalar scalar:
                parser.MoveNext();
                return Value(scalar);
            case SequenceStart:
                parser.MoveNext();
                var items = new List<DataNode>();
                while (!parser.TryConsume<SequenceEnd>(out _))
                {
                    items.Add(Node(parser, depth + 1, file, violations));
                }

                return new ListNode(items, Line(at), Column(at));
            case MappingStart:
                parser.MoveNext();
                return Map(parser, at, depth, file, violations);
            case AnchorAlias alias:
                violations.Add(new Violation("", $"the alias *{alias.Value}", "values written out", "write the value where it is used", Line(at), Column(at), file));
                parser.MoveNext();
                return new ScalarNode(null, false, Line(at), Column(at));
            default:
                throw new YamlException(at?.Start ?? Mark.Empty, at?.End ?? Mark.Empty, "the text ends in the middle of a value");
        }
    }

    private static MapNode Map(IParser parser, ParsingEvent start, int depth, string? file, List<Violation> violations)
    {
        var entries = new List<MapEntry>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        while (!parser.TryConsume<MappingEnd>(out _))
        {
            var at = parser.Current!;
            if (at is not Scalar key)
            {
                throw new YamlException(at.Start, at.End, "a name that is not a plain word");
            }

            parser.MoveNext();
            var value = Node(parser, depth + 1, file, violations);
            if (names.Add(key.Value))
            {
                entries.Add(new MapEntry(key.Value, value, Line(at), Column(at)));
            }
            else
            {
                violations.Add(new Violation(key.Value, "a second value under this name", "one value", "keep one of them", Line(at), Column(at), file));
            }
        }

        return new MapNode(entries, Line(start), Column(start));
    }

    private static ScalarNode Value(Scalar scalar)
    {
        var quoted = scalar.Style is ScalarStyle.SingleQuoted or ScalarStyle.DoubleQuoted or ScalarStyle.Literal or ScalarStyle.Folded;
        var isNull = !quoted && scalar.Value is "" or "~" or "null" or "Null" or "NULL";
        return new ScalarNode(isNull && !quoted ? null : scalar.Value, quoted, Line(scalar), Column(scalar));
    }

    private static int Line(ParsingEvent? at) => (int)(at?.Start.Line ?? 0);

    private static int Column(ParsingEvent? at) => (int)(at?.Start.Column ?? 0);

    // The library's messages begin with the place, which stands beside them already.
    private static string Plain(YamlException error)
    {
        var message = error.Message;
        var colon = message.StartsWith('(') ? message.IndexOf("): ", StringComparison.Ordinal) : -1;
        return colon < 0 ? message.TrimEnd('.') : message[(colon + 3)..].TrimEnd('.');
    }
}
