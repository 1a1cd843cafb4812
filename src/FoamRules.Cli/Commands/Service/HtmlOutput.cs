using FoamRules.Cli.Output;
using FoamRules.Model;
using FoamRules.Pages.Reports;
using FoamRules.Readings;

namespace FoamRules.Cli.Commands.Service;

/// <summary>
/// One HTML file that stands alone: it is written when all reports are there; nothing where no plan could be judged. Who is sent it has
/// no command to show the rest, so it leaves nothing out but for a crew, whose sheet is short on purpose.
/// </summary>
/// <param name="texts">The texts of the readings.</param>
/// <param name="reader">Who reads.</param>
/// <param name="all">Everything in full.</param>
internal sealed class HtmlOutput(IReadOnlyDictionary<string, string> texts, Reader reader, bool all) : IPlanOutput
{
    private readonly List<(Report Report, string? TimeZone)> _reports = [];

    public void Write(Report report, PlanChecked plan) => _reports.Add((report, plan.TimeZone));

    public void WriteSummary(IReadOnlyList<PlanChecked> plans)
    {
        // Each report says its own.
    }

    public void Finish()
    {
        if (_reports.Count > 0)
        {
            Console.Out.WriteLine(ReportFile.Draw(_reports, texts, reader, all || reader != Reader.Crew).GetAwaiter().GetResult());
        }
    }
}
