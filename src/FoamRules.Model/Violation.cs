namespace FoamRules.Model;

/// <summary>Something in a file or a message that cannot be read, or cannot be true.</summary>
public sealed record Violation
{
    private const string Frame = "found {0}; allowed: {1}; {2}";

    private readonly Said _found, _allowed, _remedy;

    /// <summary>Something that cannot be read, or cannot be true.</summary>
    /// <param name="path">The field's path, such as <c>work[0].cavity_fill.height</c>.</param>
    /// <param name="found">What was found.</param>
    /// <param name="allowed">What is allowed.</param>
    /// <param name="remedy">What to do.</param>
    /// <param name="line">The line in the file, from 1; 0 where there is no file.</param>
    /// <param name="column">The column in the file, from 1; 0 where there is no file.</param>
    /// <param name="file">The file; null where there is none.</param>
    public Violation(string path, Said found, Said allowed, Said remedy, int line = 0, int column = 0, string? file = null) =>
        (Path, _found, _allowed, _remedy, Line, Column, File) = (path, found, allowed, remedy, line, column, file);

    /// <summary>The field's path.</summary>
    public string Path { get; init; }

    /// <summary>What was found.</summary>
    public string Found
    {
        get => _found.ToString();
        init => _found = value;
    }

    /// <summary>What is allowed.</summary>
    public string Allowed
    {
        get => _allowed.ToString();
        init => _allowed = value;
    }

    /// <summary>What to do.</summary>
    public string Remedy
    {
        get => _remedy.ToString();
        init => _remedy = value;
    }

    /// <summary>The line in the file, from 1; 0 where there is no file.</summary>
    public int Line { get; init; }

    /// <summary>The column in the file, from 1; 0 where there is no file.</summary>
    public int Column { get; init; }

    /// <summary>The file; null where there is none.</summary>
    public string? File { get; init; }

    /// <summary>Where it stands, with a colon behind each part that is known.</summary>
    public string Where => HiddenCharacters.Shown($"{(Line > 0 ? $"{File}({Line},{Column}): " : File is null ? "" : $"{File}: ")}{(Path.Length > 0 ? $"{Path}: " : "")}");

    /// <summary>What was found, what is allowed and what to do, in one sentence.</summary>
    public string Sentence => HiddenCharacters.Shown(Said.Fill(Order, [Found, Allowed, Remedy]));

    private string Order { get; init; } = Frame;

    /// <summary>The words as they were put together.</summary>
    public IEnumerable<Said> Words => [_found, _allowed, _remedy];

    /// <summary>The same in another language; what the language lacks stays in English.</summary>
    /// <param name="patterns">The language's words by the English pattern.</param>
    public Violation In(IReadOnlyDictionary<string, string> patterns) => this with
    {
        Found = _found.In(patterns),
        Allowed = _allowed.In(patterns),
        Remedy = _remedy.In(patterns),
        Order = patterns.GetValueOrDefault(Frame, Frame),
    };

    /// <inheritdoc/>
    public override string ToString() => Where + Sentence;
}
