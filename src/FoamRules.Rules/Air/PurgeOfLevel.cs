using System.Collections.Immutable;
using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Air;

/// <summary>
/// The purge of one substance from an area's air, from the level when spraying stops to the level at which people without
/// protection may come back. The fans are taken to stay on until then; air.ventilation-goes-on judges whether they do.
/// </summary>
/// <param name="Time">The time, or never, or a refusal; null where something is not given.</param>
/// <param name="Unknown">What is not given.</param>
/// <param name="ReturnLevel">Where the level to reach comes from, in words.</param>
internal sealed record PurgeOfLevel(Calculated<PurgeTime>? Time, ImmutableArray<FieldRef> Unknown, Measure ReturnLevel)
{
    /// <summary>What was calculated; null where something is not given or was refused.</summary>
    public PurgeCase? Case { get; private init; }

    /// <summary>The level to reach; null where something is not given or was refused.</summary>
    public MassConcentration? Limit { get; private init; }

    /// <summary>True where the plan gives the level when spraying stops.</summary>
    public static bool IsGiven(AirborneLevel level) => level.AtEndByMass is not null || level.AtEndByVolume is not null;

    /// <summary>Works it out.</summary>
    /// <param name="area">The area.</param>
    /// <param name="level">The level.</param>
    /// <param name="returnLevel">The rule sets' level for MDI at which people come back.</param>
    /// <param name="vapour">The conversion of ppm.</param>
    public static PurgeOfLevel Of(WorkArea area, AirborneLevel level, Limit returnLevel, MdiVapour vapour)
    {
        var unknown = ImmutableArray.CreateBuilder<FieldRef>();
        T? Need<T>(T? value, PlanNode node, string property)
            where T : struct
        {
            if (value is null)
            {
                unknown.Add(new FieldRef(node, property));
            }

            return value;
        }

        var substance = Need(level.Substance, level, nameof(AirborneLevel.Substance));
        var atEnd = Need(vapour.Larger(level.AtEndByMass, level.AtEndByVolume, substance), level, nameof(AirborneLevel.AtEndByMass));
        var inPlan = vapour.Smaller(level.ReturnLimitByMass, level.ReturnLimitByVolume, substance);
        // A plan may ask for cleaner air than the rule sets, never for less clean air.
        var byRuleSet = substance == Substance.Mdi ? vapour.Of(returnLevel) : (MassConcentration?)null;
        var isByRuleSet = byRuleSet is not null && (inPlan is null || byRuleSet < inPlan);
        var governs = isByRuleSet ? byRuleSet : inPlan;
        var limit = Need(governs, level, nameof(AirborneLevel.ReturnLimitByMass));
        var volume = Need(area.AirVolume, area, nameof(WorkArea.AirVolume));
        VolumeFlow? flow = null;
        double? mixing = null;
        if (area.Ventilation is { } ventilation)
        {
            flow = Need(ventilation.ExhaustFlow, ventilation, nameof(Ventilation.ExhaustFlow));
            mixing = Need(ventilation.MixingFactor, ventilation, nameof(Ventilation.MixingFactor));
        }
        else
        {
            unknown.Add(new FieldRef(area, nameof(WorkArea.Ventilation)));
        }

        EmissionSource? source = new EmissionSource.None();
        if (level.NoSourceAfterSpraying is not true)
        {
            var rate = Need(level.SourcePerHourByMass, level, nameof(AirborneLevel.SourcePerHourByMass));
            var decay = Need(level.SourceDecay, level, nameof(AirborneLevel.SourceDecay));
            source = rate is { } perHour && decay is { } dying && volume is { } room ? SourceOf(perHour, dying, room) : null;
        }

        var where = isByRuleSet ? Measure.OfText(returnLevel.Source.Citation) : Spoken.Word("the level given in the plan");
        if (unknown.Count > 0)
        {
            return new PurgeOfLevel(null, unknown.ToImmutable(), where);
        }

        var changes = Purge.AirChanges(flow!.Value, volume!.Value);
        if (!changes.HasValue)
        {
            return new PurgeOfLevel(Calculated<PurgeTime>.Refuse(changes.Refusal!), [], where);
        }

        var purge = new PurgeCase(atEnd!.Value, source!, volume.Value, mixing!.Value, [new VentilationStage(changes.Value, null)]);
        return new PurgeOfLevel(Purge.LastTimeAbove(purge, limit!.Value), [], where) { Case = purge, Limit = limit };
    }

    private static EmissionSource SourceOf(MassConcentration perHour, Frequency decay, Volume room)
    {
        var rate = MassFlow.FromGramsPerHour(perHour.GramsPerCubicMeter * room.CubicMeters);
        return decay.CyclesPerHour == 0 ? new EmissionSource.Constant(rate) : new EmissionSource.Dying(rate, decay);
    }
}
