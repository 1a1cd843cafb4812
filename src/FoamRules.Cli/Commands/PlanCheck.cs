using FoamRules.Cli.Output;
using FoamRules.Exchange;
using FoamRules.Model;

namespace FoamRules.Cli.Commands;

/// <summary>What came of one plan.</summary>
/// <param name="Name">The plan's file.</param>
/// <param name="Report">The report; null where there is none.</param>
/// <param name="Problems">What is wrong, a line each; empty where there is a report.</param>
/// <param name="Text">What stands in the file; empty where it could not be used.</param>
internal sealed record PlanChecked(string Name, Report? Report, IReadOnlyList<string> Problems, string Text = "")
{
    /// <summary>The time zone of the site; null: the plan does not say it.</summary>
    public string? TimeZone { get; init; }

    /// <summary>What the command answers to the shell for it.</summary>
    public int Code => Problems.Count > 0 || Report is null ? ExitCode.Unusable : ExitCode.Of(Report.Disposition);
}

/// <summary>Reads one plan and checks it. Whatever goes wrong with it is said of it alone.</summary>
internal static class PlanCheck
{
    public static async Task<PlanChecked> Run(string file, Request request, Checker checker, CancellationToken cancellation)
    {
        var name = InputFile.NameOf(file);
        if (InputFile.Read(file, out var problem) is not { } text)
        {
            return new PlanChecked(name, null, [$"{name}: {Say(problem)}"]);
        }

        var read = PlanReader.ReadText(text, name, new ReadOptions(DateTimeOffset.Now, request.Stage));
        if (read.Plan is null)
        {
            return Unusable(name, Say("cannot be used; nothing was judged:"), ViolationWords.In(read.Violations, request.Language), " ");
        }

        var answer = await checker.Check(read, request, cancellation).ConfigureAwait(false);
        if (answer.Report is not { } report)
        {
            return Unusable(name, Say(answer.Problem ?? "cannot be judged:"), answer.Violations, ": ");
        }

        if (request.Pictures is { } folder && PictureFiles.Write(report, name, folder) is { } undrawn)
        {
            return new PlanChecked(name, null, [undrawn]);
        }

        return request.Fix is { } amended && await AmendedPlan.Write(text, name, report, amended, request, checker, cancellation).ConfigureAwait(false) is { } unwritten
            ? new PlanChecked(name, null, [Say(unwritten)])
            : new PlanChecked(name, report, [], text) { TimeZone = read.Plan.TimeZone };

        string Say(Said english) => english.In(ViolationWords.Of(request.Language ?? ""));
    }

    private static PlanChecked Unusable(string name, string problem, IEnumerable<Violation> violations, string between) =>
        new(name, null, [$"{name}{between}{problem}", .. violations.Select(violation => $"  {violation}")]);
}
