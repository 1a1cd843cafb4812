using FoamRules.Model;
using FoamRules.Pages.Site;
using FoamRules.Readings;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace FoamRules.Pages.Reports;

/// <summary>A report as one HTML file that stands alone: the same sheet as on the pages, its styles inside, nothing loaded.</summary>
public static class ReportFile
{
    /// <summary>Draws reports.</summary>
    /// <param name="reports">The reports, each with the time zone of its site, where that is known.</param>
    /// <param name="texts">The texts of the readings, in the language of the reports.</param>
    /// <param name="reader">Who reads.</param>
    /// <param name="all">Everything in full.</param>
    public static async Task<string> Draw(IReadOnlyList<(Report Report, string? TimeZone)> reports, IReadOnlyDictionary<string, string> texts, Reader reader, bool all)
    {
        await using var services = new ServiceCollection().AddLogging().BuildServiceProvider();
        var words = PageWords.In(reports.Count > 0 ? reports[0].Report.Language : PageWords.English);
        var answers = reports.Select(one => new PlanAnswer(one.Report, null, texts, words, []) { Words = new ReadingWords(texts), TimeZone = one.TimeZone }).ToList();
        return await new PageRenderer(services, services.GetRequiredService<ILoggerFactory>()).Draw<ReportFileView>(new Dictionary<string, object?>
        {
            [nameof(ReportFileView.Answers)] = answers,
            [nameof(ReportFileView.Reader)] = reader,
            [nameof(ReportFileView.All)] = all,
            [nameof(ReportFileView.Words)] = words,
        }).ConfigureAwait(false);
    }
}
