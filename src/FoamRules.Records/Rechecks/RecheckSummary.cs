using FoamRules.Rules.Catalogue;

namespace FoamRules.Records.Rechecks;

/// <summary>How often a requirement's findings differ today.</summary>
/// <param name="Requirement">Its id.</param>
/// <param name="Appear">Findings that were not there.</param>
/// <param name="Tighten">Findings that bite harder.</param>
/// <param name="Loosen">Findings that bite less.</param>
/// <param name="Vanish">Findings that are gone.</param>
/// <param name="Change">Findings as severe as before with another value, limit or wording.</param>
public sealed record RequirementRechecked(string Requirement, int Appear, int Tighten, int Loosen, int Vanish, int Change)
{
    /// <summary>All of them.</summary>
    internal int All => Appear + Tighten + Loosen + Vanish + Change;

    internal RequirementRechecked And(DifferenceKind kind) => kind switch
    {
        DifferenceKind.Appears => this with { Appear = Appear + 1 },
        DifferenceKind.Tightens => this with { Tighten = Tighten + 1 },
        DifferenceKind.Loosens => this with { Loosen = Loosen + 1 },
        DifferenceKind.Vanishes => this with { Vanish = Vanish + 1 },
        _ => this with { Change = Change + 1 },
    };
}

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
    /// <summary>Sums up the parts that are done, one after the other: all together may be more than the memory holds.</summary>
    internal static async Task<RecheckSummary> Of(RecheckRunRow run, IAsyncEnumerable<RecheckResult> parts)
    {
        var sum = new RecheckSummary(run.Id, run.Reviews, 0, 0, 0, 0, 0, []);
        var requirements = new Dictionary<string, RequirementRechecked>(StringComparer.Ordinal);
        await foreach (var part in parts.ConfigureAwait(false))
        {
            sum = sum with
            {
                Checked = sum.Checked + part.Reviews,
                Same = sum.Same + part.Reviews - part.Changed.Count,
                Worse = sum.Worse + part.Changed.Count(review => review is { IsWorse: true, Now: not null }),
                Milder = sum.Milder + part.Changed.Count(review => review.IsMilder),
                NotJudged = sum.NotJudged + part.Changed.Count(review => review.Now is null),
            };
            foreach (var finding in part.Changed.SelectMany(review => review.Findings))
            {
                var before = requirements.GetValueOrDefault(finding.Requirement) ?? new RequirementRechecked(finding.Requirement, 0, 0, 0, 0, 0);
                requirements[finding.Requirement] = before.And(finding.Kind);
            }
        }

        return sum with { Requirements = [.. requirements.Values.OrderByDescending(one => one.All).ThenBy(one => one.Requirement, StringComparer.Ordinal)] };
    }
}
