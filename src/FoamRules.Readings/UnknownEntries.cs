using FoamRules.Model;

namespace FoamRules.Readings;

/// <summary>What is not known, as questions: the three to ask first, then the others.</summary>
internal static class UnknownEntries
{
    private const int First = 3;

    /// <summary>The questions to ask first, and the others.</summary>
    /// <param name="at">The report that is arranged.</param>
    /// <param name="most">How many of the others are shown.</param>
    public static IEnumerable<ReportSection> Of(Arrangement at, int most)
    {
        var unknowns = at.Report.Unknowns;
        yield return at.Lines(unknowns.Length > First ? "ask-first" : "ask", unknowns.Take(First).Select(unknown => $"{unknown.Question} {Waits(at.Words, unknown)} [{unknown.Path}]"));
        yield return at.Lines("then-ask", [
            .. unknowns.Skip(First).Take(most).Select(unknown => $"{unknown.Question} [{unknown.Path}]"),
            .. unknowns.Length - First > most ? [at.Words["more-questions", ("count", ReadingWords.Number(unknowns.Length - First - most))]] : Array.Empty<string>()]);
    }

    private static string Waits(ReadingWords words, UnknownInput unknown)
    {
        var waits = words.Counted("waits", unknown.Requirements.Length);
        return unknown.Worst is { } worst ? words["waits-worst", ("waits", waits), ("worst", ReportNames.Of(worst))] : words["waits-only", ("waits", waits)];
    }
}
