using FoamRules.Model;

namespace FoamRules.Cli.Commands;

/// <summary>Reads an input file, or standard input.</summary>
internal static class InputFile
{
    // A plan of 10,000 items is about 10 MB; more than this is no input of ours.
    private const long MaxFileBytes = 32L * 1024 * 1024;

    /// <summary>How a file is called in messages.</summary>
    public static string NameOf(string file) => file == "-" ? "standard input" : file;

    /// <summary>The text; null where it cannot be read.</summary>
    /// <param name="file">The file; - for standard input.</param>
    /// <param name="problem">Why it cannot be read.</param>
    public static string? Read(string file, out Said problem)
    {
        problem = "";
        try
        {
            if (file == "-")
            {
                return Console.In.ReadToEnd();
            }

            if (new FileInfo(file) is { Exists: true, Length: > MaxFileBytes })
            {
                problem = $"larger than {MaxFileBytes / 1024 / 1024} MB; split it into several";
                return null;
            }

            return File.ReadAllText(file);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException or ArgumentException)
        {
            problem = error is FileNotFoundException or DirectoryNotFoundException ? "no such file" : Said.Name(error.Message);
            return null;
        }
    }
}
