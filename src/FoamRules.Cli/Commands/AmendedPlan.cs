using FoamRules.Exchange;
using FoamRules.Model;
using FoamRules.Text;

namespace FoamRules.Cli.Commands;

/// <summary>
/// Writes the plan with the changes that were found, its comments and layout kept. Never over a file that is there, and only where
/// the amended text checks to what was promised.
/// </summary>
internal static class AmendedPlan
{
    /// <summary>Why no amended plan can be written, in a sentence; null where it can.</summary>
    /// <param name="plans">The plans that were named.</param>
    /// <param name="file">The file to write.</param>
    public static Said? WhyNot(IReadOnlyList<string> plans, string file) =>
        plans.Count != 1 ? (Said)$"--fix: found {plans.Count} plans; it amends one plan at a time"
        : File.Exists(file) || Directory.Exists(file) ? (Said)$"--fix: {file} is there already; an amended plan is never written over a file. Name a new file."
        : null;

    /// <summary>Writes the amended plan.</summary>
    /// <returns>Why it was not written, in a sentence; null where it was, or where there is nothing to change.</returns>
    public static async Task<Said?> Write(string text, string name, Report report, string file, Request request, Checker checker, CancellationToken cancellation)
    {
        if (report.Remedies!.WholePlan is not { Changes.IsEmpty: false } promised)
        {
            Tell($"{name}: no change of what may be chosen puts a finding right; {file} is not written");
            return null;
        }

        if (text.AsSpan().TrimStart().StartsWith("{"))
        {
            return (Said)$"{name}: --fix amends plans in YAML; this one is JSON. The report lists the changes.";
        }

        var amended = promised.Changes.Aggregate(text, (sofar, change) => YamlEdit.Set(sofar, change.Path, change.Write));
        var read = PlanReader.ReadText(amended, file, new ReadOptions(report.JudgedAt ?? DateTimeOffset.Now, request.Stage));
        var answer = read.Plan is null ? null : await checker.Check(read, request with { Remedies = false, Pictures = null }, cancellation).ConfigureAwait(false);
        if (answer?.Report is not { } again || !IsAsPromised(report, promised, again))
        {
            return (Said)$"{name}: the amended text does not check to what was promised; nothing was written. Please report it.";
        }

        try
        {
            await using var stream = new FileStream(file, FileMode.CreateNew, FileAccess.Write);
            await using var writer = new StreamWriter(stream);
            await writer.WriteAsync(amended.AsMemory(), cancellation).ConfigureAwait(false);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return (Said)$"--fix: {file} cannot be written: {error.Message}";
        }

        Tell($"{file}: the plan with {promised.Changes.Length} changes; read it before you work by it");
        return null;

        void Tell(Said said) => Console.Error.WriteLine(said.In(ViolationWords.Of(request.Language ?? "")));
    }

    // The same findings as those of the plan, less what is cleared, more what is brought.
    private static bool IsAsPromised(Report report, WholePlanRemedy promised, Report again) =>
        again.Disposition == promised.Disposition
        && promised.Cleared.All(cleared => !again.Findings.Any(finding => finding.Requirement == cleared.Requirement && finding.Subject == cleared.Subject))
        && again.Findings.All(finding => report.Findings.Any(one => one.Requirement == finding.Requirement && one.Subject == finding.Subject && one.Severity >= finding.Severity)
            || promised.Brought.Any(one => one.Requirement == finding.Requirement && one.Subject == finding.Subject && one.Severity == finding.Severity));
}
