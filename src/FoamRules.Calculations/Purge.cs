using System.Collections.Immutable;
using System.Globalization;
using FoamRules.Model;
using UnitsNet;

namespace FoamRules.Calculations;

/// <summary>What still gives a substance off into the air after the work stops.</summary>
public abstract record EmissionSource
{
    private EmissionSource()
    {
    }

    /// <summary>Nothing: emission has stopped. Optimistic for foam, which goes on giving off.</summary>
    public sealed record None : EmissionSource;

    /// <summary>A source that stays as it is.</summary>
    /// <param name="Rate">Emission.</param>
    public sealed record Constant(MassFlow Rate) : EmissionSource;

    /// <summary>A source that dies away as e^(−kt).</summary>
    /// <param name="InitialRate">Emission when the purge starts.</param>
    /// <param name="Decay">The rate constant k, per hour; "cycles per hour" of UnitsNet is read as 1/h.</param>
    public sealed record Dying(MassFlow InitialRate, Frequency Decay) : EmissionSource;
}

/// <summary>A stretch of time with one ventilation.</summary>
/// <param name="AirChanges">Air changes n per hour ("cycles per hour" of UnitsNet read as 1/h); zero is no ventilation.</param>
/// <param name="Length">How long it lasts; null for the last stage, which goes on.</param>
public sealed record VentilationStage(Frequency AirChanges, Duration? Length);

/// <summary>A space to be purged of one substance.</summary>
/// <param name="Initial">Concentration when the purge starts.</param>
/// <param name="Source">What still gives it off.</param>
/// <param name="Room">Volume of the space.</param>
/// <param name="MixingFactor">Mixing factor K: 1 for perfect mixing, up to 10 for dead spots.</param>
/// <param name="Stages">The ventilation, stage by stage; the last goes on.</param>
public sealed record PurgeCase(MassConcentration Initial, EmissionSource Source, Volume Room, double MixingFactor, ImmutableArray<VentilationStage> Stages);

/// <summary>When a concentration stays at or below its limit.</summary>
public abstract record PurgeTime
{
    private PurgeTime()
    {
    }

    /// <summary>From this time on, counted from the start of the purge, the concentration stays at or below the limit.</summary>
    /// <param name="Time">The last time above the limit; zero when it never is above.</param>
    public sealed record StaysBelowFrom(Duration Time) : PurgeTime;

    /// <summary>It never stays below the limit with this ventilation and this source.</summary>
    /// <param name="Why">Why not, in words.</param>
    public sealed record Never(string Why) : PurgeTime;
}

/// <summary>
/// How long to ventilate until a substance stays below its limit. Well-mixed air with a mixing factor: n is n ÷ K everywhere.
/// Incoming air is clean. No physics of re-entry by itself: the longest of sheet, rule set and this holds.
/// </summary>
public static class Purge
{
    private const string DecaySource = "CDC, Guidelines for Environmental Infection Control (2003), App. B, Table B.1 formula (read); mixing factor from memory";
    private const string MassBalanceSource = "mass balance of a well-mixed space with a source (read); mixing factor from memory";

    /// <summary>Air changes per hour: n = Q ÷ V. Flow 0 or more, volume more than 0. Source: definition.</summary>
    public static Calculated<Frequency> AirChanges(VolumeFlow airFlow, Volume room)
    {
        if (Gate.First(Gate.NotNegative("air flow", airFlow), Gate.Positive("room volume", room)) is { } refusal)
            return Calculated<Frequency>.Refuse(refusal);
        var changes = Frequency.FromCyclesPerHour(airFlow.CubicMetersPerHour / room.CubicMeters);
        return Calculated<Frequency>.From(changes, Line.Of("air changes per hour", "n = Q ÷ V", changes, "definition",
            Line.In("Q", "air flow", airFlow), Line.In("V", "room volume", room)));
    }

    /// <summary>
    /// Time to remove a share of what is in the air, with no source: t = −ln(1 − r) ÷ (n ÷ K). Air changes 1e-6 to 1e6 per hour, K 1 to 10,
    /// 0 ≤ r &lt; 100 %. Source: CDC 2003, App. B, Table B.1 (whose cells take K = 1).
    /// </summary>
    public static Calculated<Duration> TimeToRemove(Frequency airChanges, double mixingFactor, Ratio removed)
    {
        if (Gate.First(
                NotPerHour("air changes", airChanges, orNone: false), NotMixing(mixingFactor),
                Gate.Require(removed.DecimalFractions is >= 0 and < 1, "share removed", Measure.Of(removed), "0 % or more and less than 100 %",
                    "decay never removes the last of it")) is { } refusal)
            return Calculated<Duration>.Refuse(refusal);
        var time = Duration.FromHours(-Math.Log(1 - removed.DecimalFractions) * mixingFactor / airChanges.CyclesPerHour);
        return Calculated<Duration>.From(time, Line.Of("time to remove a share", "t = −ln(1 − r) ÷ (n ÷ K)", time, DecaySource,
            Line.In("r", "share removed", removed), Line.In("n", "air changes per hour", airChanges), Line.In("K", "mixing factor", mixingFactor)));
    }

    /// <summary>
    /// Concentration at a time: within a stage C = C₀e^(−nt) + (S₀ ÷ (n − k))(e^(−kt) − e^(−nt)), with n ÷ K for n, S₀ the emission over the
    /// room volume at the start of the stage, k = 0 for a constant source. Concentrations, emissions and times 0 or more, air changes 0 or 1e-6 to 1e6 per hour,
    /// decay 1e-6 to 1e6 per hour, K 1 to 10.
    /// Source: mass balance of a well-mixed space.
    /// </summary>
    public static Calculated<MassConcentration> ConcentrationAfter(PurgeCase purge, Duration time)
    {
        if (Gate.First(NotCase(purge), Gate.NotNegative("time", time)) is { } refusal)
            return Calculated<MassConcentration>.Refuse(refusal);
        var stages = StagesOf(purge);
        var last = stages.Last(stage => stage.StartHours <= time.Hours);
        var concentration = MassConcentration.FromGramsPerCubicMeter(last.At(time.Hours - last.StartHours));
        return Calculated<MassConcentration>.From(concentration, [.. StageSteps(purge, stages),
            Line.Of("concentration", StageFormula, concentration, MassBalanceSource, Line.In("t", "time from the start of the purge", time))]);
    }

    /// <summary>
    /// The last time above the limit, not the first below it: a later stage with less air, or a source that outlasts the first decay, may lift
    /// the concentration again. Answers <see cref="PurgeTime.Never"/> where it does not stay below: a constant source with S·K ÷ n ≥ limit, or
    /// no ventilation in the last stage with more in the air than the limit. Limit more than 0; otherwise the range of <see cref="ConcentrationAfter"/>.
    /// Within a stage the concentration rises at most once and then falls, so each stage is bracketed from its peak. Source: mass balance.
    /// </summary>
    public static Calculated<PurgeTime> LastTimeAbove(PurgeCase purge, MassConcentration limit)
    {
        if (Gate.First(NotCase(purge), Gate.Positive("limit", limit)) is { } refusal)
            return Calculated<PurgeTime>.Refuse(refusal);
        var stages = StagesOf(purge);
        var answer = Answer(stages, limit.GramsPerCubicMeter);
        return Calculated<PurgeTime>.From(answer, [.. StageSteps(purge, stages),
            Line.Of("last time above the limit", "last t with C(t) > C_limit, by bracketing each stage from its peak; never if S·K ÷ n ≥ C_limit",
                answer is PurgeTime.StaysBelowFrom below ? Measure.Of(below.Time) : Measure.OfText("never"), MassBalanceSource,
                Line.In("C_limit", "limit", limit))]);
    }

    private const string StageFormula = "C = C₀e^(−nt/K) + (S₀ ÷ (n/K − k))(e^(−kt) − e^(−nt/K))";

    private static PurgeTime Answer(IReadOnlyList<Stage> stages, double limit)
    {
        if (stages[^1].WhyNever(limit) is { } why)
            return new PurgeTime.Never(why);
        // From the back: the first stage met that is above the limit holds the last crossing.
        for (var at = stages.Count - 1; at >= 0; at--)
            if (stages[at].LastHourAbove(limit) is { } hour)
                return new PurgeTime.StaysBelowFrom(Duration.FromHours(stages[at].StartHours + hour));
        return new PurgeTime.StaysBelowFrom(Duration.Zero);
    }

    private static List<Stage> StagesOf(PurgeCase purge)
    {
        var (rate, decay) = purge.Source switch
        {
            EmissionSource.Constant constant => (constant.Rate.GramsPerHour, 0),
            EmissionSource.Dying dying => (dying.InitialRate.GramsPerHour, dying.Decay.CyclesPerHour),
            _ => (0.0, 0.0),
        };
        var stages = new List<Stage>();
        var concentration = purge.Initial.GramsPerCubicMeter;
        var emission = rate / purge.Room.CubicMeters;
        var start = 0.0;
        foreach (var given in purge.Stages)
        {
            var stage = new Stage(start, given.Length?.Hours, concentration, emission, decay, given.AirChanges.CyclesPerHour / purge.MixingFactor);
            stages.Add(stage);
            var hours = stage.Hours ?? 0;
            concentration = stage.At(hours);
            emission *= Math.Exp(-decay * hours);
            start += hours;
        }

        return stages;
    }

    private static IEnumerable<WorkedStep> StageSteps(PurgeCase purge, IReadOnlyList<Stage> stages) => stages.Select((stage, at) => Line.Of(
        string.Create(CultureInfo.InvariantCulture, $"concentration at the start of stage {at + 1}"), StageFormula, MassConcentration.FromGramsPerCubicMeter(stage.Initial),
        MassBalanceSource,
        Line.In("t", "start of the stage", Duration.FromHours(stage.StartHours)),
        Line.In("n", "air changes per hour", purge.Stages[at].AirChanges),
        Line.In("K", "mixing factor", purge.MixingFactor),
        Line.In("k", "decay of the source per hour", Frequency.FromCyclesPerHour(stage.Decay)),
        Line.In("G", "emission at the start of the stage", MassFlow.FromGramsPerHour(stage.Emission * purge.Room.CubicMeters)),
        Line.In("V", "room volume, S₀ = G ÷ V", purge.Room)));

    private static Refusal? NotCase(PurgeCase purge)
    {
        if (Gate.First(
                Gate.NotNegative("initial concentration", purge.Initial), Gate.Positive("room volume", purge.Room), NotMixing(purge.MixingFactor),
                purge.Source switch
                {
                    EmissionSource.Constant constant => Gate.NotNegative("emission", constant.Rate),
                    EmissionSource.Dying dying => Gate.First(
                        Gate.NotNegative("initial emission", dying.InitialRate),
                        NotPerHour("decay of the source", dying.Decay, orNone: false)),
                    _ => null,
                },
                Gate.Require(!purge.Stages.IsDefaultOrEmpty && purge.Stages[^1].Length is null, "ventilation stages",
                    Measure.OfCount(purge.Stages.IsDefault ? 0 : purge.Stages.Length), "one or more, the last of them going on", "the air after the last stage would be unknown")) is { } refusal)
            return refusal;
        foreach (var stage in purge.Stages)
            if (NotPerHour("air changes", stage.AirChanges, orNone: true) is { } notAir)
                return notAir;
        foreach (var stage in purge.Stages.SkipLast(1))
            if (stage.Length is not { } length)
                return new Refusal("length of a stage", Measure.OfText("not given"), "given for every stage but the last", "only the last stage goes on");
            else if (Gate.Positive("length of a stage", length) is { } notLength)
                return notLength;
        return null;
    }

    // Far outside any room or foam; it keeps the search for a crossing from running for longer than a double can count.
    private static Refusal? NotPerHour(Said input, Frequency found, bool orNone) =>
        Gate.Require(found.CyclesPerHour is >= 1e-6 and <= 1e6 || (orNone && found.CyclesPerHour == 0), input, Measure.Of(found),
            orNone ? "0, or 0.000001 to 1,000,000 per hour" : "0.000001 to 1,000,000 per hour", "a rate below it is no decay in any time of interest: take none, or a constant source");

    private static Refusal? NotMixing(double found) =>
        Gate.Require(found is >= 1 and <= 10, "mixing factor", Gate.Shown(found), "1 to 10",
            "1 is perfect mixing and 10 dead spots; outside it the well-mixed formula says nothing");

    /// <summary>One stage in g/m³ and hours: dC/dt = S e^(−kt) − n C, where n has the mixing factor in it. No length: it goes on.</summary>
    private sealed record Stage(double StartHours, double? Hours, double Initial, double Emission, double Decay, double Air)
    {
        public double At(double t) => Initial * Math.Exp(-Air * t) + Emission * Grown(t);

        /// <summary>Why a stage that goes on never stays below the limit, or null when it does.</summary>
        public string? WhyNever(double limit)
        {
            if (Air == 0)
            {
                // All that is still to come stays in the room.
                var toCome = Emission == 0 ? 0 : Emission / Decay;
                return Initial + toCome > limit ? "the last stage has no ventilation and more is in the air than the limit, or will be" : null;
            }

            return Decay == 0 && Emission / Air >= limit ? "the source holds the air at or above the limit: S·K ÷ n ≥ limit" : null;
        }

        /// <summary>The last hour within the stage at which the concentration is above the limit; null when it never is.</summary>
        public double? LastHourAbove(double limit)
        {
            var peak = PeakHour();
            if (!(At(peak) > limit))
                return null;
            if (Hours is { } length && At(length) > limit)
                return length;
            return Bracket.FirstAfter(t => At(t) > limit, peak, Hours ?? Beyond(peak, t => At(t) > limit));
        }

        // S e^(−kt) − n C is positive while the concentration rises; it changes sign at most once, and never from − to +.
        private double PeakHour()
        {
            if (!IsRising(0))
                return 0;
            if (Hours is { } length)
                return IsRising(length) ? length : Bracket.FirstAfter(IsRising, 0, length);
            // A constant source with air, or a dying one without, rises towards a value that is below the limit here and never falls.
            if (Decay == 0 || Air == 0)
                return 0;
            return Bracket.FirstAfter(IsRising, 0, Beyond(0, IsRising));
        }

        private bool IsRising(double t) => Emission * Math.Exp(-Decay * t) > Air * At(t);

        private double Beyond(double low, Func<double, bool> holds)
        {
            var step = 1 / (Air + Decay);
            while (holds(low + step))
                step *= 2;
            return low + step;
        }

        // (e^(−kt) − e^(−nt)) ÷ (n − k), written so that equal n and k lose no digits and a long time does not overflow.
        private double Grown(double t)
        {
            var x = Math.Abs(Air - Decay) * t;
            var share = x < 1e-3 ? 1 - x / 2 * (1 - x / 3 * (1 - x / 4)) : (1 - Math.Exp(-x)) / x;
            return t * Math.Exp(-Math.Min(Air, Decay) * t) * share;
        }
    }
}
