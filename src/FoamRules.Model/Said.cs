using System.Globalization;
using System.Runtime.CompilerServices;
using System.Text;

namespace FoamRules.Model;

/// <summary>
/// Words that know how they were put together, so that they can be said in another language. They are written as any string is:
/// <c>$"at least {least}"</c> is said by the pattern <c>at least {0}</c>, under which a language has its own.
/// </summary>
[InterpolatedStringHandler]
public sealed class Said : IEquatable<Said>
{
    private readonly StringBuilder _pattern;
    private readonly List<Said> _parts;

    /// <summary>Words with parts in them; the compiler calls it for an interpolated string.</summary>
    /// <param name="literalLength">How long the words between the parts are.</param>
    /// <param name="formattedCount">How many parts there are.</param>
    public Said(int literalLength, int formattedCount) => (_pattern, _parts) = (new StringBuilder(literalLength + (3 * formattedCount)), new List<Said>(formattedCount));

    private Said(string text, bool isName) : this(text.Length, 0) => (_, IsName) = (_pattern.Append(text), isName);

    /// <summary>True for a name, a number or a text that was found: the same in every language.</summary>
    public bool IsName { get; }

    /// <summary>The words, with <c>{0}</c>, <c>{1}</c> … where its parts stand.</summary>
    public string Pattern => _pattern.ToString();

    /// <summary>The parts.</summary>
    public IReadOnlyList<Said> Parts => _parts;

    /// <summary>Plain words.</summary>
    public static implicit operator Said(string words) => new(words, isName: false);

    /// <summary>Something that is the same in every language.</summary>
    public static Said Name(string name) => new(name, isName: true);

    /// <summary>Several one after another.</summary>
    /// <param name="between">What stands between two; the same in every language.</param>
    /// <param name="parts">The several.</param>
    public static Said Join(string between, IEnumerable<Said> parts)
    {
        var all = new Said(0, 0);
        foreach (var part in parts)
        {
            all.AppendLiteral(all._parts.Count > 0 ? between : "");
            all.AppendFormatted(part);
        }

        return all;
    }

    /// <summary>Words between the parts.</summary>
    public void AppendLiteral(string words) => _pattern.Append(words);

    /// <summary>A part that has words of its own.</summary>
    public void AppendFormatted(Said part)
    {
        _pattern.Append(CultureInfo.InvariantCulture, $"{{{_parts.Count}}}");
        _parts.Add(part);
    }

    /// <summary>A name or a number.</summary>
    public void AppendFormatted<T>(T part, string? format = null) =>
        AppendFormatted(Name(part is IFormattable number ? number.ToString(format, CultureInfo.InvariantCulture) : part?.ToString() ?? ""));

    /// <summary>The same in another language: by the pattern where it has one, and in English where not.</summary>
    /// <param name="patterns">The language's words by the English pattern.</param>
    public string In(IReadOnlyDictionary<string, string> patterns) => Fill(
        IsName ? Pattern : patterns.GetValueOrDefault(Pattern, Pattern), _parts.ConvertAll(part => part.In(patterns)));

    /// <inheritdoc/>
    public override string ToString() => Fill(Pattern, _parts.ConvertAll(part => part.ToString()));

    /// <inheritdoc/>
    public bool Equals(Said? other) => other is not null && ToString() == other.ToString();

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Said);

    /// <inheritdoc/>
    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);

    internal static string Fill(string pattern, IReadOnlyList<string> parts)
    {
        for (var i = parts.Count - 1; i >= 0; i--)
        {
            // From the last place on, and each once: what was found may hold braces itself.
            var mark = $"{{{i}}}";
            if (pattern.LastIndexOf(mark, StringComparison.Ordinal) is var at and >= 0)
            {
                pattern = pattern[..at] + parts[i] + pattern[(at + mark.Length)..];
            }
        }

        return pattern;
    }
}
