namespace FoamRules.Text;

/// <summary>A piece of a YAML or JSON text that knows where it stands, so that an error can name its line.</summary>
/// <param name="Line">The line, from 1.</param>
/// <param name="Column">The column, from 1.</param>
public abstract record DataNode(int Line, int Column);

/// <summary>A mapping of names to values.</summary>
/// <param name="Entries">The entries in the order of the text; no name stands twice.</param>
/// <param name="Line">The line, from 1.</param>
/// <param name="Column">The column, from 1.</param>
public sealed record MapNode(IReadOnlyList<MapEntry> Entries, int Line, int Column) : DataNode(Line, Column)
{
    /// <summary>The value under a name, or null.</summary>
    public DataNode? this[string name] => Entries.FirstOrDefault(entry => entry.Name == name)?.Value;
}

/// <summary>One entry of a mapping.</summary>
/// <param name="Name">The name.</param>
/// <param name="Value">The value.</param>
/// <param name="Line">The name's line, from 1.</param>
/// <param name="Column">The name's column, from 1.</param>
public sealed record MapEntry(string Name, DataNode Value, int Line, int Column);

/// <summary>A list of values.</summary>
/// <param name="Items">The values in order.</param>
/// <param name="Line">The line, from 1.</param>
/// <param name="Column">The column, from 1.</param>
public sealed record ListNode(IReadOnlyList<DataNode> Items, int Line, int Column) : DataNode(Line, Column);

/// <summary>A single value.</summary>
/// <param name="Text">The value as it is written; null where nothing or <c>null</c> stands.</param>
/// <param name="Quoted">True where it stands in quotes, so that it is text even if it looks like a number.</param>
/// <param name="Line">The line, from 1.</param>
/// <param name="Column">The column, from 1.</param>
public sealed record ScalarNode(string? Text, bool Quoted, int Line, int Column) : DataNode(Line, Column);
