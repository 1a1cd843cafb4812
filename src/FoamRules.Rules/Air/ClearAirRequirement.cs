using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// A requirement that rests on how long the air of an area takes to clear: the longest of the data sheets' times, the rule
/// sets' time and the purge worked out from the levels in the plan. A sheet's time stands for all that its foam gives off. Where a
/// sheet is silent, MDI, amines and blowing agents must each have a purge; what is not known leaves the time unknown.
/// </summary>
public abstract class ClearAirRequirement : Requirement<AreaFacts>
{
    private const string ComputedPurge = "the computed purge";

    private static readonly ImmutableArray<Substance> GivenOff = [Substance.Mdi, Substance.Amine, Substance.BlowingAgent];

    private readonly Limit? _byRuleSet;
    private readonly Limit? _declared;
    private readonly Limit _returnLevel;
    private readonly MdiVapour _vapour;

    /// <summary>The requirement as the rule sets state it.</summary>
    /// <param name="spec">What the rule sets state.</param>
    /// <param name="returnLevel">The parameter that gives the level of MDI at which these people come back.</param>
    private protected ClearAirRequirement(RequirementSpec spec, string returnLevel)
        : base(spec)
    {
        _byRuleSet = Find("after-last-spray");
        _declared = Find("declared-for-light-density");
        _returnLevel = Shared(returnLevel);
        _vapour = new MdiVapour(Shared("mdi-molar-mass"), Shared("limits-at-temperature"), Shared("limits-at-pressure"));
    }

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <summary>The property of a product that holds the sheet's time.</summary>
    private protected abstract string SheetProperty { get; }

    /// <summary>The time on a product's sheet.</summary>
    private protected abstract Duration? OnSheet(Product sheet);

    /// <summary>The purge of one level, down to the level at which these people come back.</summary>
    internal PurgeOfLevel PurgeOf(AreaFacts area, AirborneLevel level) => PurgeOfLevel.Of(area.Area, level, _returnLevel, _vapour);

    /// <summary>How long people must stay out of an area, as far as it is known.</summary>
    public StayOut StayOutOf(AreaFacts area) => area.Once(this, () => FindStayOut(area));

    private StayOut FindStayOut(AreaFacts area)
    {
        var sheets = AreaAir.Sheets(area).ToList();
        var silent = sheets.Where(sheet => OnSheet(sheet) is null).ToList();
        var levels = area.Area.AirborneLevels.Where(PurgeOfLevel.IsGiven).ToList();
        var purges = levels.Select(level => (Level: level, Purge: PurgeOf(area, level))).ToList();

        var times = sheets.Select(sheet => FromSheet(sheet, SheetProperty, OnSheet(sheet), Tighter.Higher)).OfType<Limit>().ToList();
        if (_byRuleSet is not null && !AreaAir.IsInTheOpen(area))
        {
            times.Add(_byRuleSet);
        }

        if (_declared is not null && sheets.Any(MustBeDeclared))
        {
            times.Add(_declared);
        }

        times.AddRange(purges.Select(pair => LimitOf(pair.Purge)).OfType<Limit>());
        var longest = times.OrderByDescending(time => time.As<Duration>().Seconds).FirstOrDefault();

        var unknown = purges.SelectMany(pair => pair.Purge.Unknown).ToList();
        if (silent.Any(MustBeDeclared) || (silent.Count > 0 && !GivenOff.All(substance => levels.Any(level => level.Substance == substance))))
        {
            unknown.AddRange(silent.Select(sheet => new FieldRef(sheet, SheetProperty)));
            unknown.Add(new FieldRef(area.Area, nameof(WorkArea.AirborneLevels)));
        }

        var worked = purges.Select(pair => pair.Purge.Time).OfType<Calculated<PurgeTime>>().ToList();
        var never = purges.FirstOrDefault(pair => pair.Purge.Time is { HasValue: true, Value: PurgeTime.Never });
        return new StayOut(
            longest,
            [.. unknown],
            never.Level?.Substance is { } substance ? NameOf(substance) : null,
            worked.FirstOrDefault(time => !time.HasValue)?.Refusal,
            [.. worked.SelectMany(time => time.Steps)]);
    }

    /// <summary>Holds a planned time against how long people must stay out, with both times on the site's clock where it is known.</summary>
    private protected static Verdict Against(AreaFacts bearer, Duration planned, StayOut stayOut)
    {
        var verdict = AsKnown(planned, stayOut).Worked(stayOut.Steps);
        if (verdict is not { Outcome: Outcome.NotMet, Limit: { } longest })
        {
            return verdict;
        }

        verdict = verdict.With("by", longest.Layer is SheetLimit.Layer or ComputedPurge ? Spoken.Word(longest.Layer) : Measure.OfText(longest.Layer));
        if (bearer.Area.LastSprayAt is not { } last)
        {
            return verdict.Saying("too-short-no-clock");
        }

        var zone = bearer.Job.Plan.TimeZone;
        return verdict.Saying("too-short")
            .With("planned-at", SiteClock.At(last + TimeSpan.FromSeconds(planned.Seconds), zone))
            .With("needed-at", SiteClock.At(SiteClock.After(last, longest.As<Duration>()), zone));
    }

    // Where a layer asks for a time declared by the supplier, a purge does not stand in for it.
    private bool MustBeDeclared(Product sheet) => _declared is not null && sheet.Kind == FoamKind.OpenCellSpray;

    private static Verdict AsKnown(Duration planned, StayOut stayOut)
    {
        if (stayOut.NeverClearsOf is { } substance)
        {
            return Verdict.NotMet("never").With("substance", substance);
        }

        var held = stayOut.Longest is { } longest ? Hold(planned, longest) : null;
        return (held, stayOut) switch
        {
            ({ Outcome: Outcome.NotMet }, _) => held,
            (_, { Refusal: { } refusal }) => Verdict.OutOfRange(refusal),
            (_, { Unknown.IsEmpty: false }) => Verdict.Missing(stayOut.Unknown),
            _ => held!,
        };
    }

    private static Limit? LimitOf(PurgeOfLevel purge)
    {
        if (purge.Time is not { HasValue: true, Value: PurgeTime.StaysBelowFrom below })
        {
            return null;
        }

        var citation = Spoken.Of("purge-worked-out", $"purge of the air worked out from the levels in the plan, down to: {purge.ReturnLevel.Text}", ("level", purge.ReturnLevel));
        return new Limit
        {
            Name = "purge",
            Value = Measure.AtLeast(below.Time),
            Tighter = Tighter.Higher,
            Layer = ComputedPurge,
            Source = new Source("purge", citation.Text!, SourceStatus.Arithmetic, ComputedPurge) { Named = citation.Phrase },
        };
    }

    private static Measure NameOf(Substance substance) => substance == Substance.Mdi ? Spoken.Word("MDI") : Spoken.Of(substance);
}
