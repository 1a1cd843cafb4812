namespace FoamRules.Model;

/// <summary>Something in a file or a message that cannot be read, or cannot be true.</summary>
/// <param name="Path">The field's path, such as <c>work[0].cavity_fill.height</c>.</param>
/// <param name="Found">What was found.</param>
/// <param name="Allowed">What is allowed.</param>
/// <param name="Remedy">What to do.</param>
/// <param name="Line">The line in the file, from 1; 0 where there is no file.</param>
/// <param name="Column">The column in the file, from 1; 0 where there is no file.</param>
/// <param name="File">The file; null where there is none.</param>
public sealed record Violation(string Path, string Found, string Allowed, string Remedy, int Line = 0, int Column = 0, string? File = null)
{
    /// <inheritdoc/>
    public override string ToString()
    {
        var where = Line > 0 ? $"{File}({Line},{Column}): " : File is null ? "" : $"{File}: ";
        var field = Path.Length > 0 ? $"{Path}: " : "";
        return $"{where}{field}found {Found}; allowed: {Allowed}; {Remedy}";
    }
}
