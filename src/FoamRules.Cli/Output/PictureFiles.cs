using FoamRules.Model;

namespace FoamRules.Cli.Output;

/// <summary>Writes a report's pictures as files, one each, named for the plan, the subject and what is shown.</summary>
internal static class PictureFiles
{
    /// <summary>Writes them; answers what went wrong, or null.</summary>
    /// <param name="report">The report.</param>
    /// <param name="plan">The plan's file name.</param>
    /// <param name="folder">The folder; it is made where it is not there.</param>
    public static string? Write(Report report, string plan, string folder)
    {
        try
        {
            Directory.CreateDirectory(folder);
            foreach (var picture in report.Pictures)
            {
                var name = $"{Path.GetFileNameWithoutExtension(plan)}-{picture.Subject.Id}-{picture.Name}.svg";
                var file = Path.Combine(folder, string.Concat(name.Select(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '.' or '_' ? letter : '-')));
                File.WriteAllText(file, picture.Svg);
                Console.Error.WriteLine($"drawn: {file}");
            }

            return null;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return $"--pictures: {error.Message}";
        }
    }
}
