using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Fill;

/// <summary>
/// fill.wait-covers-full-rise: the nozzle comes back to a compartment only after the full rise seen in today's shots, times
/// the rule set's factor, after the data sheet's wait, and after the computed cooling of the foam below (calculation 4.4), which
/// has its own tier. That cooling clears nothing: where the sheet gives no wait, a wait that covers rise and cooling is still not
/// known to be long enough.
/// </summary>
public sealed class WaitCoversFullRise : FillRequirement
{
    private const string NotCooled = "not-cooled";

    private readonly Limit _fullRises;
    private readonly HeatParameters _heat;

    /// <summary>The requirement as the rule sets state it.</summary>
    public WaitCoversFullRise(RequirementSpec spec)
        : base(spec)
    {
        _fullRises = Need("full-rises");
        _ = _fullRises.Factor;
        _heat = new HeatParameters(spec.Parameters);
    }

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.HeatInFoam;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

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
        var byRise = facts.Fill.TestShots?.FullRiseSeen is { } rise ? fullRises.Amounting(rise * fullRises.Factor) : null;
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
        var cooled = Verdict.Worst(Returns(fill.Shots).Select(shot => Cooled(shot, numbers)));
        // A wait that is too short by what is known is too short; one that is not has still to pass what is not known.
        return held.Outcome == Outcome.NotMet ? held
            : cooled.Outcome == Outcome.NotMet ? cooled
            : Gaps.Of(Open(held), Open(cooled), notPlaced, notSeen, silent) ?? held;
    }

    private static Verdict? Open(Verdict verdict) => verdict.Outcome == Outcome.Undetermined ? verdict : null;

    /// <summary>How long the foam of a space takes to cool, as far as a second pour waits for it.</summary>
    /// <param name="numbers">The numbers of the fill.</param>
    /// <param name="space">The space.</param>
    /// <param name="heat">What the rule sets say of heat.</param>
    public static Derived<Duration> Cooling(FillNumbers numbers, FillSpace space, HeatParameters heat)
    {
        var pour = FillHeat.Of(numbers, space, heat);
        return pour.Gap is { } gap ? Derived<Duration>.Without(gap) : Derived<Duration>.Of(pour.Value.CooledAfter, pour.Steps);
    }

    private Verdict Cooled(Shot shot, FillNumbers numbers)
    {
        if (numbers.Spaces.Gap is { } gap)
        {
            return gap;
        }

        // A shot into a compartment that is not listed: fill.compartments-mapped says so.
        if (numbers.Spaces.Value.FirstOrDefault(space => space.Number == (shot.Compartment ?? 1)) is not { } space)
        {
            return Verdict.Missing(numbers.Fill, nameof(CavityFill.Compartments));
        }

        var cooling = Cooling(numbers, space, _heat);
        if ((cooling.Gap ?? (WaitOf(shot, numbers.Fill) is null ? Verdict.Missing(shot, nameof(Shot.WaitBefore)) : null)) is { } open)
        {
            return open;
        }

        var needed = _heat.RiseLeft.Amounting(cooling.Value, Tighter.Higher) with { Name = "cooling" };
        return OnWait(Hold(WaitOf(shot, numbers.Fill)!.Value, needed), shot, numbers.Fill).AtTier(NotCooled).Saying(NotCooled).Worked(cooling.Steps)
            .With("compartment", space.Name).With("left", _heat.RiseLeft.Value).With("needed", HeatParameters.ForPeople(cooling.Value));
    }

    private Verdict Wait(Shot shot, FillFacts facts)
    {
        return WaitOf(shot, facts.Fill) is { } wait
            ? OnWait(Needed(facts, _fullRises) is { } needed ? Hold(wait, needed) : Verdict.Met(), shot, facts.Fill)
            : Verdict.Missing(shot, nameof(Shot.WaitBefore));
    }

    private static Duration? WaitOf(Shot shot, CavityFill fill) => shot.WaitBefore ?? fill.WaitBetweenPours;

    private static Verdict OnWait(Verdict verdict, Shot shot, CavityFill fill) => shot.WaitBefore is { } own
        ? verdict.On(shot, nameof(Shot.WaitBefore), own)
        : verdict.On(fill, nameof(CavityFill.WaitBetweenPours), fill.WaitBetweenPours!.Value);

    // The shots before which the nozzle comes back to a compartment that already holds foam.
    private static List<Shot> Returns(IReadOnlyList<Shot> shots) =>
        [.. shots.GroupBy(shot => shot.Compartment ?? 1).SelectMany(compartment => compartment.Skip(1))];
}
