namespace FoamRules.Cli.Output;

/// <summary>Whether a person sees what is written, as it is written.</summary>
internal static class Terminal
{
    /// <summary>Standard output is a terminal, and no file or program.</summary>
    public static bool HasOutput { get; set; } = !Console.IsOutputRedirected;

    /// <summary>Standard error is a terminal, and no file or program.</summary>
    public static bool HasErrors { get; set; } = !Console.IsErrorRedirected;
}
