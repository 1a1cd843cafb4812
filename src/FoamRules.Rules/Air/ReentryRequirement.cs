using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>When people who wear nothing against it come back into an area. The clock starts at the last spraying, trimming or solvent use.</summary>
public abstract class ReentryRequirement : ClearAirRequirement
{
    private protected ReentryRequirement(RequirementSpec spec, string returnLevel)
        : base(spec, returnLevel)
    {
    }

    /// <summary>The key of the words for this time on the day's clock.</summary>
    public abstract string ClockKey { get; }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.BystandersExposed;

    /// <summary>The clock time that the plan gives, with the property that holds it.</summary>
    private protected abstract (DateTimeOffset? Value, string Property) At(Reentry reentry);

    /// <summary>The wait after the last spraying that the plan gives, with the property that holds it.</summary>
    private protected abstract (Duration? Value, string Property) After(Reentry reentry);

    /// <summary>The planned wait after the last spraying: the later of a clock time and a wait, where both are given; null where it is not known.</summary>
    public Duration? PlannedAfter(WorkArea area)
    {
        if (area.Reentry is not { } reentry)
        {
            return null;
        }

        var after = After(reentry).Value;
        var byClock = At(reentry).Value - area.LastSprayAt is { } span ? Duration.FromSeconds(span.TotalSeconds) : (Duration?)null;
        return byClock is null || byClock < after ? after : byClock;
    }

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) =>
        AreaAir.IsInTheOpen(bearer) && AreaAir.Sheets(bearer).All(sheet => OnSheet(sheet) is null) ? AreaAir.OpenAir : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        var area = bearer.Area;
        var stayOut = StayOutOf(bearer);
        if (area.Reentry is not { } reentry)
        {
            return Verdict.Missing(area, nameof(WorkArea.Reentry));
        }

        var (at, atProperty) = At(reentry);
        var (_, afterProperty) = After(reentry);
        var clockStarts = new FieldRef(area, nameof(WorkArea.LastSprayAt));
        if (PlannedAfter(area) is not { } planned)
        {
            return at is null ? Verdict.Missing(reentry, afterProperty) : Verdict.Missing(clockStarts);
        }

        var verdict = Against(bearer, planned, stayOut).On(reentry, afterProperty, planned);
        // The clock time may be the later one; how late it is counts from the last spraying.
        return at is not null && area.LastSprayAt is null && verdict is { Outcome: Outcome.NotMet, Says: not "never" } ? Verdict.Missing(clockStarts)
            : at is not null ? verdict.On(reentry, atProperty, Measure.OfInstant(at.Value)) : verdict;
    }
}
