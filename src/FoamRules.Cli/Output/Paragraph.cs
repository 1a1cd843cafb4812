using System.Text;
using FoamRules.Model;

namespace FoamRules.Cli.Output;

/// <summary>Breaks lines at words, so that a report fits a terminal of 100 columns.</summary>
internal static class Paragraph
{
    public const int Width = 100;

    /// <summary>Writes a text with an indent; the lines after the first stand below the first word.</summary>
    /// <param name="output">Where to write.</param>
    /// <param name="head">What stands before the first line, indent included.</param>
    /// <param name="text">The text.</param>
    public static void Write(StringBuilder output, string head, string text)
    {
        var indent = new string(' ', head.Length);
        var line = new StringBuilder(head);
        var empty = true;
        foreach (var word in HiddenCharacters.Shown(text).Split([' ', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            if (!empty && line.Length + 1 + word.Length > Width)
            {
                output.AppendLine(line.ToString());
                line.Clear().Append(indent);
                empty = true;
            }

            line.Append(empty ? "" : " ").Append(word);
            empty = false;
        }

        output.AppendLine(line.ToString());
    }
}
