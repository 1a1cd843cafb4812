using System.Collections.Immutable;
using FoamRules.Model;
using FoamRules.Rules.Engine;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.OnSite;

/// <summary>
/// site.readings-fresh: no standing reading is dated after "now" or older than the limit of its kind, and gas is measured all the
/// time. Left out: the shorter limit near sunset, as a plan holds no sunset; the mixing ratio since this
/// start-up and the output of today, on which gear.ratio-in-tolerance and gear.output-measured report.
/// </summary>
public sealed class ReadingsFresh(RequirementSpec spec) : Requirement<AreaFacts>(spec)
{
    private readonly ImmutableDictionary<ReadingKind, Limit> _oldest = ImmutableDictionary<ReadingKind, Limit>.Empty
        .Add(ReadingKind.AirTemperature, spec.Limits["oldest.air-temperature"])
        .Add(ReadingKind.SurfaceTemperature, spec.Limits["oldest.surface-temperature"])
        .Add(ReadingKind.RelativeHumidity, spec.Limits["oldest.relative-humidity"])
        .Add(ReadingKind.WindGust, spec.Limits["oldest.wind-gust"]);

    /// <inheritdoc/>
    public override HazardKind Answers => HazardKind.PoorBond;

    /// <inheritdoc/>
    protected override string? WhyNot(AreaFacts bearer) => bearer.Area.Readings.IsEmpty ? "no-readings" : null;

    /// <inheritdoc/>
    protected override Verdict Judge(AreaFacts bearer)
    {
        if (bearer.Job.Plan.JudgedAt is not { } now)
        {
            return Verdict.Missing(bearer.Job.Plan, nameof(Plan.JudgedAt));
        }

        var zone = bearer.Job.Plan.TimeZone;
        return Verdict.Worst(Enum.GetValues<ReadingKind>().SelectMany(kind => StandingReadings.In(bearer, kind)).Select(reading => Fresh(reading, now, zone)));
    }

    private Verdict Fresh(Reading reading, DateTimeOffset now, string? zone)
    {
        var isGasTest = reading.Kind == ReadingKind.GasTest;
        if (reading.At is not { } at)
        {
            return isGasTest && reading.Continuous == true ? Verdict.Met() : Verdict.Missing(reading, nameof(Reading.At));
        }

        var name = Spoken.Of(reading.Kind);
        if (at > now)
        {
            return Verdict.NotMet("in-the-future").With("reading", name).With("at", SiteClock.At(at, zone)).With("now", SiteClock.At(now, zone)).On(reading, nameof(Reading.At));
        }

        if (isGasTest)
        {
            return Verdict.Confirmed(reading.Continuous, reading, nameof(Reading.Continuous), "not-continuous");
        }

        return _oldest.TryGetValue(reading.Kind, out var oldest)
            ? Hold(Duration.FromMinutes((now - at).TotalMinutes), oldest).Saying("too-old").With("reading", name).With("at", SiteClock.At(at, zone)).On(reading, nameof(Reading.At))
            : Verdict.Met().On(reading, nameof(Reading.At));
    }
}
