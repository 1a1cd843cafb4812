using System.Collections.Concurrent;
using FoamRules.Text;
using Google.Protobuf.Reflection;
using Google.Protobuf.WellKnownTypes;

namespace FoamRules.Exchange;

/// <summary>The ways to every field of a message, by the field's name: where a name belongs that stands at the wrong place.</summary>
internal sealed class FieldWays
{
    // As many as a person looks at.
    private const int Most = 3;
    private static readonly ConcurrentDictionary<MessageDescriptor, FieldWays> Known = new();
    private readonly Dictionary<string, List<FieldDescriptor[]>> _ways = new(StringComparer.Ordinal);

    private FieldWays(MessageDescriptor root) => Gather(root, []);

    /// <summary>The ways from a message.</summary>
    public static FieldWays From(MessageDescriptor root) => Known.GetOrAdd(root, static root => new FieldWays(root));

    /// <summary>The nearest places of a field of this very name, by path; empty where there is none.</summary>
    /// <param name="name">The name.</param>
    /// <param name="here">The fields on the way to the message in which it was found, each with its path there.</param>
    public IReadOnlyList<string> Nearest(string name, IReadOnlyList<(FieldDescriptor Field, string Path)> here)
    {
        if (!_ways.TryGetValue(name, out var ways))
        {
            return [];
        }

        var far = ways.Select(way => (Way: way, Shared: way.Zip(here).TakeWhile(pair => pair.First == pair.Second.Field).Count()))
            .Select(one => (one.Way, one.Shared, Steps: here.Count - one.Shared + one.Way.Length - one.Shared)).ToList();
        var least = far.Min(one => one.Steps);
        return [.. far.Where(one => one.Steps == least).OrderByDescending(one => one.Shared).Take(Most).Select(one => PathOf(one.Way, one.Shared, here))];
    }

    /// <summary>The name of a field that is closest to a misspelt one; null where none is close.</summary>
    public string? Closest(string name)
    {
        var most = Math.Max(1, name.Length / 4);
        return _ways.Keys.Where(one => Math.Abs(one.Length - name.Length) <= most).Select(one => (Name: one, Distance: Closeness.Distance(one, name)))
            .Where(one => one.Distance <= most).OrderBy(one => one.Distance).Select(one => one.Name).FirstOrDefault();
    }

    // Below where it was found, from there; elsewhere from the beginning, with the numbers of the entries that both lie in.
    private static string PathOf(FieldDescriptor[] way, int shared, IReadOnlyList<(FieldDescriptor Field, string Path)> here)
    {
        var rest = string.Join('.', way.Skip(shared).Select((field, i) => field.Name + (field.IsRepeated && shared + i < way.Length - 1 ? "[]" : "")));
        return shared == here.Count || shared == 0 ? rest : $"{here[shared - 1].Path}.{rest}";
    }

    private void Gather(MessageDescriptor message, FieldDescriptor[] way)
    {
        foreach (var field in message.Fields.InDeclarationOrder())
        {
            FieldDescriptor[] here = [.. way, field];
            Add(field.Name, here);
            if (field.JsonName != field.Name)
            {
                Add(field.JsonName, here);
            }

            if (field.FieldType == FieldType.Message && !QuantityMap.IsQuantity(field.MessageType) && field.MessageType.File != Timestamp.Descriptor.File && !way.Any(one => one.MessageType == field.MessageType))
            {
                Gather(field.MessageType, here);
            }
        }
    }

    private void Add(string name, FieldDescriptor[] way)
    {
        if (!_ways.TryGetValue(name, out var ways))
        {
            _ways[name] = ways = [];
        }

        ways.Add(way);
    }
}
