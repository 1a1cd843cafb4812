using System.Collections.Immutable;
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
        var unknowns = Asked(at.Report.Unknowns);
        yield return at.Lines(unknowns.Length > First ? "ask-first" : "ask", unknowns.Take(First).Select(unknown => $"{unknown.Question} {Waits(at.Words, unknown)} [{unknown.Path}]"));
        yield return at.Lines("then-ask", [
            .. unknowns.Skip(First).Take(most).Select(unknown => $"{unknown.Question} [{unknown.Path}]"),
            .. unknowns.Length - First > most ? [at.Words["more-questions", ("count", ReadingWords.Number(unknowns.Length - First - most))]] : Array.Empty<string>()]);
    }

    // Where a whole is asked for, its parts are not asked for besides; it is asked as soon as the first of them would be.
    private static ImmutableArray<UnknownInput> Asked(ImmutableArray<UnknownInput> unknowns) =>
    [
        .. unknowns.GroupBy(unknown => unknowns.Where(whole => unknown.Path == whole.Path || unknown.Path.StartsWith(whole.Path + ".", StringComparison.Ordinal)).MinBy(whole => whole.Path.Length)!)
            .Select(parts => parts.Key with { Worst = parts.Max(part => part.Worst), Requirements = [.. parts.SelectMany(part => part.Requirements).Distinct()] })
            .OrderByDescending(unknown => unknown.Worst ?? 0).ThenByDescending(unknown => unknown.Requirements.Length),
    ];

    private static string Waits(ReadingWords words, UnknownInput unknown)
    {
        var waits = words.Counted("waits", unknown.Requirements.Length);
        return unknown.Worst is { } worst ? words["waits-worst", ("waits", waits), ("worst", words.Of(worst))] : words["waits-only", ("waits", waits)];
    }
}
