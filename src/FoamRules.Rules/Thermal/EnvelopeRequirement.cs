using FoamRules.Calculations;
using FoamRules.Model;
using FoamRules.Rules.Facts;
using FoamRules.Rules.Fill;
using FoamRules.Rules.Hazards;
using FoamRules.Rules.Judging;
using FoamRules.RuleSets;
using UnitsNet;

namespace FoamRules.Rules.Thermal;

/// <summary>A requirement of the part of an envelope that the foam belongs to.</summary>
public abstract class EnvelopeRequirement : Requirement<WorkFacts>
{
    private protected EnvelopeRequirement(RequirementSpec spec)
        : base(spec) => Films = new AirFilms(spec.Parameters);

    /// <inheritdoc/>
    public sealed override HazardKind Answers => HazardKind.ColdAndDamp;

    /// <inheritdoc/>
    public override bool MayRestOnPlan => true;

    /// <summary>Surface resistances of the rule set.</summary>
    private protected AirFilms Films { get; }

    /// <inheritdoc/>
    protected sealed override Verdict Judge(WorkFacts bearer) =>
        bearer.Item.Envelope is { } envelope ? Judge(bearer, envelope) : Verdict.Missing(bearer.Item, nameof(WorkItem.Envelope));

    /// <summary>Judges the part of the envelope.</summary>
    private protected abstract Verdict Judge(WorkFacts work, Envelope envelope);

    /// <summary>The reason where foam fills a steel section: it is no layer of the wall.</summary>
    private protected static string? NoLayer(WorkFacts work) =>
        work is FillFacts { Fill.Cavity: CavityKind.SteelSection } ? "inside-steel" : null;

    /// <summary>The dew point of the inside air at design conditions.</summary>
    private protected static Derived<Temperature> DewPoint(Envelope envelope)
    {
        if (Gaps.Of(
            envelope.InsideTemperature is null ? Verdict.Missing(envelope, nameof(Envelope.InsideTemperature)) : null,
            envelope.InsideHumidity is null ? Verdict.Missing(envelope, nameof(Envelope.InsideHumidity)) : null) is { } gap)
        {
            return Derived<Temperature>.Without(gap);
        }

        var point = Psychrometrics.DewPoint(envelope.InsideTemperature!.Value, RelativeHumidity.FromPercent(envelope.InsideHumidity!.Value.Percent));
        return point.HasValue ? Derived<Temperature>.Of(point.Value.Temperature, point.Steps) : Derived<Temperature>.Without(Verdict.OutOfRange(point.Refusal!));
    }
}
