using Spectre.Console;

namespace FoamRules.Cli.Output;

/// <summary>
/// Tables on standard output: as wide as the terminal, or as wide as a report elsewhere. Colour comes only on a terminal, unless NO_COLOR
/// is set, and only on words that say the same without it.
/// </summary>
internal static class Tables
{
    // Longer than a path can be.
    private const int LongestLine = 10_000;

    /// <summary>A table with titles and no lines but the one below them.</summary>
    /// <param name="titles">The titles, plain.</param>
    public static Table Of(params IEnumerable<string> titles)
    {
        var table = new Table().Border(TableBorder.Simple);
        foreach (var title in titles)
        {
            table.AddColumn(new TableColumn(Markup.Escape(title)));
        }

        return table;
    }

    /// <summary>Writes a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="aLineEach">Where it goes to a file or a program, each row stays on one line, however long.</param>
    public static void Write(Table table, bool aLineEach = false)
    {
        var plain = !Terminal.HasOutput || Environment.GetEnvironmentVariable("NO_COLOR") is { Length: > 0 };
        var console = AnsiConsole.Create(new AnsiConsoleSettings
        {
            Out = new AnsiConsoleOutput(Console.Out),
            ColorSystem = plain ? ColorSystemSupport.NoColors : ColorSystemSupport.Detect,
            Ansi = plain ? AnsiSupport.No : AnsiSupport.Detect,
        });
        if (!Terminal.HasOutput)
        {
            console.Profile.Width = aLineEach ? LongestLine : Paragraph.Width;
        }

        console.Write(table);
    }
}
