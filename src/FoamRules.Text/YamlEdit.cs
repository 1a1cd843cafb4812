using System.Globalization;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;
using Comment = YamlDotNet.Core.Tokens.Comment;

namespace FoamRules.Text;

/// <summary>
/// Changes single values of a YAML text and leaves everything else as it stands: order, layout and every comment. A comment inside
/// a value that is replaced moves to a line of its own above it.
/// </summary>
public static class YamlEdit
{
    /// <summary>Sets the value at a path.</summary>
    /// <param name="text">The text; it must be readable.</param>
    /// <param name="path">The path, such as <c>work[posts].cavity_fill.height</c>; an entry of a list by its <c>id</c> or its index from 0.</param>
    /// <param name="value">The value in YAML on one line. A list takes the form, a line an entry or all on one, of the list that it replaces.</param>
    /// <exception cref="ArgumentException">The path leads through a value, or to an entry of a list that is not there.</exception>
    public static string Set(string text, string path, string value)
    {
        var steps = path.Split('.').SelectMany(Steps).ToList();
        var node = YamlSpan.Read(text);
        YamlSpan? key = null;
        for (var i = 0; i < steps.Count; i++)
        {
            if (node.Kind == SpanKind.List)
            {
                node = Entry(node, steps[i], path);
                key = null;
                continue;
            }

            if (node.Kind == SpanKind.Single && !node.IsNull(text))
            {
                throw new ArgumentException($"{path}: a single value stands on the way");
            }

            if (node.Kind == SpanKind.Single)
            {
                return Replace(text, node, key, Nested(steps.Skip(i), value));
            }

            if (node.Find(steps[i]) is not { } found)
            {
                return Insert(text, node, steps[i], Nested(steps.Skip(i + 1), value));
            }

            (key, node) = found;
        }

        return Replace(text, node, key, value);
    }

    private static IEnumerable<string> Steps(string step)
    {
        var bracket = step.IndexOf('[', StringComparison.Ordinal);
        return bracket < 0 ? [step] : [step[..bracket], step[(bracket + 1)..^1]];
    }

    private static YamlSpan Entry(YamlSpan list, string key, string path) =>
        list.Children.Find(entry => entry.Find("id") is { } id && id.Value.Text == key)
            ?? (int.TryParse(key, CultureInfo.InvariantCulture, out var index) && index < list.Children.Count ? list.Children[index] : throw new ArgumentException($"{path}: there is no entry {key}"));

    // Fields on the way that the text does not have yet are written with the value.
    private static string Nested(IEnumerable<string> steps, string value) => steps.Reverse().Aggregate(value, (inner, step) => $"{{ {step}: {inner} }}");

    private static string Replace(string text, YamlSpan node, YamlSpan? key, string value)
    {
        if (node.Start == node.End)
        {
            // Nothing stands behind the colon.
            var colon = text.IndexOf(':', key?.End ?? node.Start);
            return text.Insert(colon + 1, " " + value);
        }

        var written = node is { Kind: SpanKind.List, IsBlock: true } && YamlSpan.Read(value) is { Kind: SpanKind.List, Children.Count: > 0 } list
            ? string.Join(NewLine(text) + new string(' ', node.Column), list.Children.Select(entry => "- " + value[entry.Start..entry.End]))
            : value;
        var changed = text[..node.Start] + written + text[node.End..];
        var anchor = node.IsBlock || key is null ? node : key;
        var line = anchor.Start == 0 ? 0 : changed.LastIndexOf('\n', anchor.Start - 1) + 1;
        var indent = new string(' ', changed[line..].TakeWhile(c => c == ' ').Count());
        return Comments(text, node.Start, node.End).Reverse().Aggregate(changed, (sofar, comment) => sofar.Insert(line, indent + comment + NewLine(text)));
    }

    private static string Insert(string text, YamlSpan map, string name, string value)
    {
        var entry = $"{name}: {value}";
        if (map.Children.Count == 0)
        {
            return text[..map.Start] + $"{{ {entry} }}" + text[map.End..];
        }

        var last = map.Children[^1].End;
        if (!map.IsBlock)
        {
            return text.Insert(last, ", " + entry);
        }

        // Behind the last entry's own comment, in the column of its names.
        var end = text.IndexOf('\n', last);
        var at = end < 0 ? text.Length : end > 0 && text[end - 1] == '\r' ? end - 1 : end;
        return text.Insert(at, NewLine(text) + new string(' ', map.Column) + entry);
    }

    private static IEnumerable<string> Comments(string text, int start, int end)
    {
        var scanner = new Scanner(new StringReader(text), skipComments: false);
        while (scanner.MoveNext())
        {
            if (scanner.Current is Comment comment && comment.Start.Index >= start && comment.Start.Index < end)
            {
                var from = (int)comment.Start.Index;
                var to = text.IndexOfAny(['\r', '\n'], from);
                yield return text[from..(to < 0 ? text.Length : to)];
            }
        }
    }

    private static string NewLine(string text) => text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
}

/// <summary>What a piece of YAML is.</summary>
internal enum SpanKind
{
    /// <summary>A single value.</summary>
    Single = 1,

    /// <summary>A list.</summary>
    List = 2,

    /// <summary>A mapping; its children are names and values in turn.</summary>
    Map = 3,
}

/// <summary>A piece of a YAML text with the places of its first character and of the one behind its last.</summary>
internal sealed record YamlSpan(SpanKind Kind, int Start, int End, int Column, bool IsBlock, string Text, List<YamlSpan> Children)
{
    public static YamlSpan Read(string text)
    {
        var parser = new Parser(new Scanner(new StringReader(text), skipComments: true));
        parser.Consume<StreamStart>();
        parser.Consume<DocumentStart>();
        return Node(parser, text);
    }

    public bool IsNull(string text) => Start == End || text[Start..End] is "null" or "~" or "Null" or "NULL";

    public (YamlSpan Key, YamlSpan Value)? Find(string name)
    {
        for (var i = 0; Kind == SpanKind.Map && i < Children.Count; i += 2)
        {
            if (Children[i].Text == name)
            {
                return (Children[i], Children[i + 1]);
            }
        }

        return null;
    }

    private static YamlSpan Node(Parser parser, string text)
    {
        var at = parser.Current!;
        parser.MoveNext();
        var (start, column) = ((int)at.Start.Index, (int)at.Start.Column - 1);
        if (at is Scalar scalar)
        {
            return new YamlSpan(SpanKind.Single, start, Trimmed(text, start, (int)at.End.Index), column, false, scalar.Value, []);
        }

        var children = new List<YamlSpan>();
        while (parser.Current is not (MappingEnd or SequenceEnd))
        {
            children.Add(Node(parser, text));
        }

        var isBlock = at is MappingStart { Style: MappingStyle.Block } or SequenceStart { Style: SequenceStyle.Block };
        // A block ends where its last value does; the parser says so only where the next thing begins.
        var end = isBlock ? children[^1].End : (int)parser.Current!.Start.Index + 1;
        parser.MoveNext();
        return new YamlSpan(at is MappingStart ? SpanKind.Map : SpanKind.List, start, end, column, isBlock, "", children);
    }

    private static int Trimmed(string text, int start, int end)
    {
        while (end > start && char.IsWhiteSpace(text[end - 1]))
        {
            end--;
        }

        return end;
    }
}
