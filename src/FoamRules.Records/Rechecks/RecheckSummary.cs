using FoamRules.Rules.Catalogue;

namespace FoamRules.Records.Rechecks;

/// <summary>How often a requirement's findings differ today.</summary>
/// <param name="Requirement">Its id.</param>
/// <param name="Appear">Findings that were not there.</param>
/// <param name="Tighten">Findings that bite harder.</param>
/// <param name="Loosen">Findings that bite less.</param>
/// <param name="Vanish">Findings that are gone.</param>
/// <param name="Change">Findings as severe as before with another value, limit or wording.</param>
public sealed record RequirementRechecked(string Requirement, int Appear, int Tighten, int Loosen, int Vanish, int Change);

/// <summary>What a run has brought so far.</summary>
/// <param name="RunId">The run.</param>
/// <param name="Reviews">How many reviews it goes through.</param>
/// <param name="Checked">How many were checked.</param>
/// <param name="Same">How many came out with the same findings.</param>
/// <param name="Worse">How many have a worse disposition.</param>
/// <param name="Milder">How many have a milder one.</param>
/// <param name="NotJudged">How many cannot be judged any more.</param>
/// <param name="Requirements">Findings that differ by requirement, the one with the most first.</param>
public sealed record RecheckSummary(
    string RunId, int Reviews, int Checked, int Same, int Worse, int Milder, int NotJudged, IReadOnlyList<RequirementRechecked> Requirements)
{
    /// <summary>True when all reviews were checked.</summary>
    public bool IsDone => Checked == Reviews;

    /// <summary>Sums up the parts that are done.</summary>
    internal static RecheckSummary Of(RecheckRunRow run, IReadOnlyList<RecheckResult> parts)
    {
        var changed = parts.SelectMany(part => part.Changed).ToList();
        var requirements = from finding in changed.SelectMany(review => review.Findings)
                           group finding.Kind by finding.Requirement into kinds
                           let many = kinds.CountBy(kind => kind).ToDictionary()
                           orderby kinds.Count() descending, kinds.Key
                           select new RequirementRechecked(kinds.Key, Many(many, DifferenceKind.Appears), Many(many, DifferenceKind.Tightens),
                               Many(many, DifferenceKind.Loosens), Many(many, DifferenceKind.Vanishes), Many(many, DifferenceKind.Changes));
        var done = parts.Sum(part => part.Reviews);
        return new RecheckSummary(run.Id, run.Reviews, done, done - changed.Count, changed.Count(review => review is { IsWorse: true, Now: not null }),
            changed.Count(review => review.IsMilder), changed.Count(review => review.Now is null), [.. requirements]);
    }

    private static int Many(Dictionary<DifferenceKind, int> many, DifferenceKind kind) => many.GetValueOrDefault(kind);
}
