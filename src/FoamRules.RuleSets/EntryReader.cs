using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.RuleSets;

/// <summary>Reads the named fields of one mapping of a rule set, and names every field that it does not know.</summary>
internal sealed class EntryReader
{
    private readonly MapNode _map;
    private readonly HashSet<string> _asked = new(StringComparer.Ordinal);
    private readonly Problems _problems;
    private readonly string _path;

    public EntryReader(DataNode node, string path, Problems problems)
    {
        _problems = problems;
        _path = path;
        if (node is MapNode map)
        {
            _map = map;
        }
        else
        {
            problems.Add(node, path, "a single value or a list", "a mapping of names to values", "write `name: value` lines below it");
            _map = new MapNode([], node.Line, node.Column);
        }
    }

    public DataNode Node => _map;

    public string Path => _path;

    public DataNode? Child(string name)
    {
        _asked.Add(name);
        return _map[name] is ScalarNode { Text: null } ? null : _map[name];
    }

    public IEnumerable<MapEntry> Children(string name)
    {
        switch (Child(name))
        {
            case null:
                return [];
            case MapNode map:
                return map.Entries;
            case { } other:
                _problems.Add(other, $"{_path}.{name}", "a single value or a list", "a mapping of names to values", "write `name: value` lines below it");
                return [];
        }
    }

    public string? Text(string name)
    {
        switch (Child(name))
        {
            case null:
                return null;
            case ScalarNode { Text: { } text }:
                return text.Trim();
            case { } other:
                _problems.Add(other, $"{_path}.{name}", "a mapping or a list", "a text", "write one text here");
                return null;
        }
    }

    public string RequiredText(string name)
    {
        if (Text(name) is { Length: > 0 } text)
        {
            return text;
        }

        _problems.Add(_map, $"{_path}.{name}", "nothing", "a text", $"give {name}");
        return "";
    }

    public ImmutableArray<(string Text, DataNode Node)>? Texts(string name)
    {
        switch (Child(name))
        {
            case null:
                return null;
            case ScalarNode { Text: { } text } node:
                return [(text.Trim(), node)];
            case ListNode list when list.Items.All(item => item is ScalarNode { Text: not null }):
                return [.. list.Items.Select(item => (((ScalarNode)item).Text!.Trim(), item))];
            case { } other:
                _problems.Add(other, $"{_path}.{name}", "something else", "a list of names", "write names, each after `- `");
                return null;
        }
    }

    public ImmutableSortedDictionary<string, string> TextMap(string name, string keyOfSingleText = "")
    {
        switch (Child(name))
        {
            case null:
                return ImmutableSortedDictionary<string, string>.Empty;
            case ScalarNode { Text: { } text }:
                return ImmutableSortedDictionary<string, string>.Empty.Add(keyOfSingleText, text.Trim());
            case MapNode map:
                var texts = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
                foreach (var entry in map.Entries)
                {
                    if (entry.Value is ScalarNode { Text: { } one })
                    {
                        texts[entry.Name] = one.Trim();
                    }
                    else
                    {
                        _problems.Add(entry.Value, $"{_path}.{name}.{entry.Name}", "no text", "a text", "write one text here");
                    }
                }

                return texts.ToImmutable();
            case { } other:
                _problems.Add(other, $"{_path}.{name}", "a list", "a text, or a mapping of keys to texts", "write the text");
                return ImmutableSortedDictionary<string, string>.Empty;
        }
    }

    /// <summary>Names the fields that nobody asked for.</summary>
    public void Done()
    {
        foreach (var entry in _map.Entries.Where(entry => !_asked.Contains(entry.Name)))
        {
            var nearest = _asked.MinBy(name => Closeness.Distance(name, entry.Name));
            var hint = nearest is not null && Closeness.Distance(nearest, entry.Name) <= 3 ? $"did you mean {nearest}?" : "take it out";
            _problems.Add(entry.Line, entry.Column, $"{_path}.{entry.Name}", "an unknown name", string.Join(", ", _asked), hint);
        }
    }
}

/// <summary>Everything that is wrong with the files of a rule set.</summary>
internal sealed class Problems
{
    private readonly List<Violation> _all = [];

    public string? File { get; set; }

    /// <summary>The lines of that file.</summary>
    public IReadOnlyList<string> Source { get; set; } = [];

    public IReadOnlyList<Violation> All => _all;

    public void Add(DataNode at, string path, string found, string allowed, string remedy) => Add(at.Line, at.Column, path, found, allowed, remedy);

    public void Add(int line, int column, string path, string found, string allowed, string remedy) =>
        _all.Add(new Violation(path, found, allowed, remedy, line, column, File));

    public void Add(Violation place, string found, string allowed, string remedy) =>
        _all.Add(place with { Found = found, Allowed = allowed, Remedy = remedy });

    public void AddRange(IEnumerable<Violation> violations) => _all.AddRange(violations);

    public Violation Place(DataNode at, string path) => new(path, "", "", "", at.Line, at.Column, File);
}
