namespace FoamRules.Testing;

/// <summary>A folder that is gone after the test.</summary>
public sealed class TemporaryFolder : IDisposable
{
    /// <summary>The folder.</summary>
    public string Path { get; } = Directory.CreateTempSubdirectory("foamrules-").FullName;

    /// <summary>Writes a file below it and answers its path.</summary>
    public string Write(string name, string text)
    {
        var file = System.IO.Path.Combine(Path, name);
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(file)!);
        File.WriteAllText(file, text);
        return file;
    }

    /// <inheritdoc/>
    public void Dispose() => Directory.Delete(Path, recursive: true);
}
