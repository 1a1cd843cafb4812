using System.Collections.Concurrent;
using System.Text;

namespace FoamRules.Model;

/// <summary>
/// A part of a submitted plan. It knows where in the plan it stands, so that a finding can point at the field that it
/// rests on. A value that the plan does not give is null, or an empty list.
/// </summary>
public abstract record PlanNode
{
    /// <summary>Where in the plan this part stands; null for the plan itself.</summary>
    public PathStep? Where { get; init; }

    /// <summary>The path of one of this part's fields, such as <c>work[posts].cavity_fill.height</c>.</summary>
    /// <param name="property">The property's name, by <c>nameof</c>.</param>
    public string PathOf(string property) => Where is null ? PathStep.FieldName(property) : $"{Where}.{PathStep.FieldName(property)}";
}

/// <summary>One step of the way from the plan to one of its parts.</summary>
/// <param name="Parent">The step before it; null directly below the plan.</param>
/// <param name="Field">The field's name in the contract.</param>
/// <param name="Key">For an entry of a list: its id, or its index from 0.</param>
/// <param name="Index">For an entry of a list: its index from 0; otherwise −1.</param>
public sealed record PathStep(PathStep? Parent, string Field, string? Key, int Index = -1)
{
    private static readonly ConcurrentDictionary<string, string> FieldNames = new(StringComparer.Ordinal);

    // Written once and asked for by every field below it; no part of what the step is.
    private string? _text;

    private PathStep(PathStep original) => (Parent, Field, Key, Index) = original;

    /// <inheritdoc/>
    public override string ToString()
    {
        return _text ??= Parent is null ? Step() : $"{Parent}.{Step()}";

        string Step() => Key is null ? Field : $"{Field}[{Key}]";
    }

    /// <inheritdoc/>
    public bool Equals(PathStep? other) => other is not null && Field == other.Field && Key == other.Key && Index == other.Index && Equals(Parent, other.Parent);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Parent, Field, Key, Index);

    /// <summary>The same way with indexes instead of ids, for values that cannot be read: their ids may be missing or doubled.</summary>
    public string ByIndex()
    {
        var step = Index < 0 ? Field : $"{Field}[{Index}]";
        return Parent is null ? step : $"{Parent.ByIndex()}.{step}";
    }

    /// <summary>The contract's name of a property: <c>VentHoles</c> is <c>vent_holes</c>, <c>ListedNfpa275</c> is <c>listed_nfpa_275</c>.</summary>
    public static string FieldName(string property) => FieldNames.GetOrAdd(property, Named);

    private static string Named(string property)
    {
        var name = new StringBuilder(property.Length + 8);
        for (var i = 0; i < property.Length; i++)
        {
            var c = property[i];
            var startsWord = i > 0 && (char.IsUpper(c) || char.IsDigit(c) != char.IsDigit(property[i - 1]));
            if (startsWord)
            {
                name.Append('_');
            }

            name.Append(char.ToLowerInvariant(c));
        }

        return name.ToString();
    }
}
