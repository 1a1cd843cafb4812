using System.Text;
using FoamRules.Readings;

namespace FoamRules.Cli.Output;

/// <summary>Lays out a report's view for a terminal: the word that counts first, sections below it, lines broken at words.</summary>
internal static class ReportText
{
    /// <summary>Writes a view.</summary>
    /// <param name="view">The view.</param>
    /// <param name="words">The words of its language.</param>
    public static string Write(ReportView view, ReadingWords words)
    {
        var output = new StringBuilder();
        Paragraph.Write(output, $"{view.Word}  ", view.Title);
        foreach (var line in view.Head)
        {
            Paragraph.Write(output, new string(' ', view.Word.Length + 2), line);
        }

        foreach (var section in view.Sections)
        {
            output.AppendLine();
            Paragraph.Write(output, "", section.Title);
            foreach (var entry in section.Entries)
            {
                Paragraph.Write(output, "  ", entry.Text);
                foreach (var detail in entry.Details)
                {
                    Paragraph.Write(output, detail.Label.Length == 0 ? "      " : $"      {detail.Label}{words.Colon}", detail.Text);
                }
            }
        }

        return output.ToString().TrimEnd();
    }
}
