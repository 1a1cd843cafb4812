using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.wait-covers-full-rise: the nozzle comes back to a compartment only after the full rise seen in today's shots, times
/// the rule set's factor, and after the data sheet's wait. The computed cooling of the foam below (calculation 4.4) is not
/// judged here yet: where the sheet gives no wait, a wait that covers the rise is therefore not yet known to be long enough.
/// </summary>
public sealed class WaitCoversFullRise : FillRequirement
{
    private readonly Limit _fullRises;

    /// <summary>The requirement as the rule sets state it.</summary>
    public WaitCoversFullRise(RequirementSpec spec)
        : base(spec)
    {
        _fullRises = Need("full-rises");
        _ = _fullRises.Factor;
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <summary>True where the plan's shots never come back to a compartment.</summary>
    public static bool HasOneShotEach(FillFacts bearer) =>
        !bearer.Fill.Shots.IsEmpty && Returns(bearer.Fill.Shots).Count == 0 && bearer.Fill.Shots.All(shot => bearer.Compartments.Length <= 1 || shot.Compartment is not null);

    /// <summary>The wait that a compartment needs, by the rise seen and by the sheet; null where neither is known.</summary>
    /// <param name="facts">The fill.</param>
    /// <param name="fullRises">How many times the full rise.</param>
    public static Limit? Needed(FillFacts facts, Limit fullRises)
    {
        var sheet = facts.Sheet;
        var bySheet = FromSheet(sheet, nameof(Product.WaitBetweenPours), sheet.WaitBetweenPours, Tighter.Higher);
        var byRise = facts.Fill.TestShots?.FullRiseSeen is { } rise ? Amounting(fullRises, rise * fullRises.Factor) : null;
        return bySheet is null || (byRise is not null && byRise.As<Duration>() > bySheet.As<Duration>()) ? byRise : bySheet;
    }

    /// <inheritdoc/>
    protected override string? WhyNot(FillFacts bearer) => HasOneShotEach(bearer) ? "one-shot-each" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(FillNumbers numbers)
    {
        var (fill, sheet) = (numbers.Fill, numbers.Facts.Sheet);
        if (fill.Shots.IsEmpty)
        {
            return Verdict.Missing(fill, nameof(CavityFill.Shots));
        }

        var notPlaced = fill.Compartments.Length > 1 ? Gaps.Of(fill.Shots.Where(shot => shot.Compartment is null).Select(shot => Verdict.Missing(shot, nameof(Shot.Compartment)))) : null;
        var notSeen = fill.TestShots is not { } tests ? Verdict.Missing(fill, nameof(CavityFill.TestShots))
            : tests.FullRiseSeen is null ? Verdict.Missing(tests, nameof(TestShots.FullRiseSeen)) : null;
        var silent = sheet.WaitBetweenPours is null ? Verdict.Missing(sheet, nameof(Product.WaitBetweenPours)) : null;
        var held = Verdict.Worst(Returns(fill.Shots).Select(shot => Wait(shot, numbers.Facts)));
        // A wait that is too short by what is known is too short; one that is not has still to pass what is not known.
        return held.Outcome == Outcome.NotMet ? held : Gaps.Of(held.Outcome == Outcome.Undetermined ? held : null, notPlaced, notSeen, silent) ?? held;
    }

    private Verdict Wait(Shot shot, FillFacts facts)
    {
        if ((shot.WaitBefore ?? facts.Fill.WaitBetweenPours) is not { } wait)
        {
            return Verdict.Missing(shot, nameof(Shot.WaitBefore));
        }

        var held = Needed(facts, _fullRises) is { } needed ? Hold(wait, needed) : Verdict.Met();
        return shot.WaitBefore is null ? held.On(facts.Fill, nameof(CavityFill.WaitBetweenPours), wait) : held.On(shot, nameof(Shot.WaitBefore), wait);
    }

    // The shots before which the nozzle comes back to a compartment that already holds foam.
    private static List<Shot> Returns(IReadOnlyList<Shot> shots) =>
        [.. shots.GroupBy(shot => shot.Compartment ?? 1).SelectMany(compartment => compartment.Skip(1))];
}
