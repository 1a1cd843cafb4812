namespace FoamRules.Testing;

/// <summary>Files of the project that are written by the program. UPDATE_GOLDENS=1 writes them anew.</summary>
public static class Generated
{
    /// <summary>True where the files are to be written and not only compared.</summary>
    public static bool IsUpdating => Environment.GetEnvironmentVariable("UPDATE_GOLDENS") == "1";

    /// <summary>What stands in a file, after writing it where that is asked for; empty where it is not there.</summary>
    /// <param name="path">The file.</param>
    /// <param name="text">What should stand in it.</param>
    public static string Read(string path, string text)
    {
        if (IsUpdating)
        {
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllText(path, text);
        }

        return File.Exists(path) ? File.ReadAllText(path) : "";
    }
}
